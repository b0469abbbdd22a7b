import { many } from '../base/many.ts';
import { isBehind } from '../bundle/behind.ts';
import type { Finding } from '../procedure/finding.ts';
import type { App } from './app.ts';
import type { DeskRow, Draft } from './desk.ts';
import { speak } from './speak.ts';
import { since } from './when.ts';
import { stateWords } from './words.ts';

/** What stands at the left of a row of the desk, and at its right. */
export interface RowWords {
  readonly name: string;
  readonly about: string;
  readonly state: string;
}

export function rowWords(app: App, row: DeskRow): RowWords {
  switch (row.row) {
    case 'hold': {
      const { bundle, hold } = row;
      return {
        name: hold.name,
        about: `${bundle.ticket}  ${hold.reason}`,
        state: ['waits', since(speak(app), hold.at, app.now)].filter(Boolean).join(' '),
      };
    }
    case 'bundle': {
      const { bundle } = row;
      const revision = bundle.text ? ` rev ${bundle.text.revision}` : '';
      const behind = isBehind(app.room, bundle) ? ', no longer in use: finish it on that, or hold it' : '';
      return { name: bundle.ticket, about: `${bundle.procedure}${revision}${behind}`, state: quiet(app, row) };
    }
    case 'draft': {
      const { draft } = row;
      return { name: draft.procedure.id || draft.file, about: draft.procedure.title, state: draftState(draft) };
    }
  }
}

/** How a bundle stands, and how long it has had no entry. */
function quiet(app: App, { bundle }: Extract<DeskRow, { readonly row: 'bundle' }>): string {
  const words = stateWords(app, bundle);
  const long = since(speak(app), bundle.lastAt, app.now);
  return bundle.work === 'open' && long !== '' ? `${words} · ${long === 'just now' ? long : `${long} ago`}` : words;
}

/** `rev C`, `rev C, changed`, `not released`, and what is to be mended. */
export function draftState({ revision, withdrawn, isReleased, findings }: Draft): string {
  const released = revision === null ? 'not released' : `rev ${revision}${withdrawn ? ', withdrawn' : ''}`;
  const changed = revision !== null && !isReleased ? ', changed since' : '';
  return [`${released}${changed}`, findingCount(findings)].filter(Boolean).join(' · ');
}

function findingCount(findings: readonly Finding[]): string {
  const of = (severity: Finding['severity']): number => findings.filter((each) => each.severity === severity).length;
  const counts = [
    [of('error'), 'error'],
    [of('warning'), 'warning'],
  ] as const;
  return counts.flatMap(([count, word]) => (count === 0 ? [] : [many(count, word)])).join(', ');
}

/** The heading above each kind of row. */
export const headings: Readonly<Record<DeskRow['row'], string>> = {
  hold: 'On hold, waiting for a supervisor',
  bundle: 'Bundles',
  draft: 'Procedures',
};
