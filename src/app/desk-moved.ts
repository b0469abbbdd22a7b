import type { TicketId } from '../base/brand.ts';
import { isBehind } from '../bundle/behind.ts';
import type { Plain } from '../words/say.ts';
import { refusal, type Step } from './acts.ts';
import type { App } from './app.ts';
import { chosenDraft, chosenRow, type Errand, filesToEdit, keptRow } from './desk.ts';
import { speak } from './speak.ts';

/** Enter at the desk: a hold or a bundle is looked at, a draft is opened. */
export function openedAtDesk(app: App): Step {
  const row = chosenRow(app);
  if (!row) return [app, []];
  return row.row === 'draft' ? showing(app, 'findings') : look(keptRow(app), row.bundle.ticket);
}

/** The chosen draft, in one of the ways it can be looked at. */
export function showing(app: App, shows: 'findings' | 'reading' | 'changes'): Step {
  const draft = chosenDraft(app);
  return draft
    ? [{ ...app, layer: { layer: 'draft', file: draft.file, shows }, scroll: 0, message: null }, []]
    : [app, []];
}

/** Work on the chosen draft that takes the whole terminal: this screen ends, and comes back after it. */
export function sentOn(app: App, errand: Errand['do']): Step {
  const draft = chosenDraft(app);
  if (!draft) return [app, []];
  const barred = errand === 'edit' ? undefined : BARRED[errand];
  if (barred && draft.findings.some(({ severity }) => severity === 'error'))
    return [{ ...app, message: refusal(speak(app)(barred)) }, []];
  const sent = errand === 'edit' ? { do: errand, files: filesToEdit(draft) } : { do: errand, file: draft.file };
  return [{ ...keptRow(app), errand: sent, ended: 0 }, []];
}

/** What is said of a draft with errors. */
const BARRED = {
  rehearse: 'It has errors: mend them before it is rehearsed.',
  release: 'It has errors: mend them before it is released.',
} as const satisfies Partial<Record<Errand['do'], Plain>>;

/** The chosen bundle, on an older revision, is to be finished on that. */
export function keptOn(app: App): Step {
  const row = chosenRow(app);
  if (row?.row !== 'bundle' || !isBehind(app.room, row.bundle) || app.hand === null) return [app, []];
  const command = { do: 'keep on', hand: app.hand } as const;
  return [app, [{ effect: 'attempt', ticket: row.bundle.ticket, command }]];
}

/** Looks at a bundle without taking it up. */
const look = (app: App, ticket: TicketId): Step => [app, app.hand === null ? [] : [{ effect: 'open at desk', ticket }]];
