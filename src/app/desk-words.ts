import { byTime } from '../base/instant.ts';
import { isBehind } from '../bundle/behind.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { Plain, Say } from '../words/say.ts';
import type { App } from './app.ts';
import type { DeskDraft, DeskRow } from './desk.ts';
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
  const say = speak(app);
  switch (row.row) {
    case 'hold': {
      const { bundle, hold } = row;
      return {
        name: hold.name,
        about: `${bundle.ticket}  ${hold.reason}`,
        state: waits(say, since(say, hold.at, app.now)),
      };
    }
    case 'bundle': {
      const { bundle } = row;
      const revision = bundle.text ? ` ${say('rev {revision}', { revision: bundle.text.revision })}` : '';
      const behind = isBehind(app.room, bundle) ? `, ${say('no longer in use')}` : '';
      return { name: bundle.ticket, about: `${bundle.procedure}${revision}${behind}`, state: quiet(app, row) };
    }
    case 'draft': {
      const { draft } = row;
      return { ...draftName(app, draft), state: draftState(say, draft) };
    }
  }
}

/** By its id; where that is missing, or another draft has it too, the file tells them apart. */
function draftName(app: App, draft: DeskDraft): Pick<RowWords, 'name' | 'about'> {
  const { id, title } = draft.procedure;
  const file = draft.file.replace(/^procedures\//, '');
  if (id === '') return { name: file, about: title };
  const isShared = app.desk?.drafts.some((other) => other.file !== draft.file && other.procedure.id === id);
  return { name: id, about: isShared ? `${file}  ${title}` : title };
}

const waits = (say: Say, long: string): string =>
  long === '' || long === say('just now') ? long : say('waits {long}', { long });

/** How a bundle stands, and how long nobody has worked on it: a paper that was printed, or a word of a supervisor, is no work. */
function quiet(app: App, { bundle }: Extract<DeskRow, { readonly row: 'bundle' }>): string {
  const say = speak(app);
  const state = stateWords(app, bundle);
  const long = since(say, lastTouched(bundle), app.now);
  if (bundle.work !== 'open' || long === '') return state;
  return long === say('just now') ? `${state} · ${long}` : say('{state} · {long} ago', { state, long });
}

/** What is typed in from paper may be older than the taking up of the bundle. */
const lastTouched = ({ workedAt, workSince }: Bundle): string =>
  workedAt !== null && byTime(workedAt, workSince) > 0 ? workedAt : workSince;

/** `rev C`, `rev C, changed since`, `not released`, and what is to be mended. */
export function draftState(say: Say, { revision, withdrawn, isReleased, findings }: DeskDraft): string {
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const others = findings.length - errors;
  const released =
    revision === null
      ? say('not released')
      : say(withdrawn ? 'rev {revision}, withdrawn' : 'rev {revision}', { revision });
  const state = revision !== null && !isReleased ? `${released}, ${say('changed since')}` : released;
  return [
    state,
    ...(errors > 0 ? [say('{count} to mend', { count: errors })] : []),
    ...(others > 0 ? [say('{count} to look at', { count: others })] : []),
  ].join(' · ');
}

/** The heading above each kind of row. */
export const headings: Readonly<Record<DeskRow['row'], Plain>> = {
  hold: 'On hold, waiting for a supervisor',
  bundle: 'Bundles',
  draft: 'Procedures',
};
