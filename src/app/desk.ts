import { type Bundle, type Hold, openHold } from '../bundle/bundle.ts';
import type { Difference } from '../procedure/difference.ts';
import type { Finding } from '../procedure/finding.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { App } from './app.ts';

/** A draft as it was last saved, beside the revision that is in use. */
export interface DeskDraft {
  /** Relative to the room, such as `procedures/LIN-2207.md`. */
  readonly file: string;
  readonly procedure: Procedure;
  readonly findings: readonly Finding[];
  /** The newest revision; null before the first. */
  readonly revision: string | null;
  /** The newest revision is out of use. */
  readonly withdrawn: boolean;
  /** Whether the file is the very text of the newest revision. */
  readonly isReleased: boolean;
  /** What differs from the newest revision. */
  readonly changes: readonly Difference[];
}

/** What a supervisor's desk shows beside the bundles. */
export interface Desk {
  readonly drafts: readonly DeskDraft[];
}

/** Work that needs the whole terminal, and for which the desk gives it away. */
export interface Errand {
  readonly do: 'edit' | 'rehearse' | 'release';
  /** The draft's file. */
  readonly file: string;
}

/** One line of the desk. */
export type DeskRow =
  | { readonly row: 'hold'; readonly bundle: Bundle; readonly hold: Hold }
  | { readonly row: 'bundle'; readonly bundle: Bundle }
  | { readonly row: 'draft'; readonly draft: DeskDraft };

/** Holds that wait, the oldest first; bundles at work, the longest without an entry first; those not begun; the drafts. */
export function deskRows({ bundles, desk }: Pick<App, 'bundles' | 'desk'>): readonly DeskRow[] {
  const open = bundles.filter(({ work }) => work !== 'finished');
  const holds = open.flatMap((bundle) => {
    const hold = openHold(bundle);
    return hold ? [{ row: 'hold' as const, bundle, hold }] : [];
  });
  const others = open
    .filter((bundle) => !openHold(bundle))
    .sort((a, b) => Number(a.text === null) - Number(b.text === null) || a.lastAt.localeCompare(b.lastAt));
  return [
    ...holds.sort((a, b) => a.hold.at.localeCompare(b.hold.at)),
    ...others.map((bundle) => ({ row: 'bundle' as const, bundle })),
    ...(desk?.drafts ?? []).map((draft) => ({ row: 'draft' as const, draft })),
  ];
}

/** Names a row, whatever becomes of it: a bundle is the same one on hold. */
export const rowKey = (row: DeskRow): string => (row.row === 'draft' ? row.draft.file : row.bundle.ticket);

/** The row that keys act on. */
export const chosenRow = (app: App): DeskRow | undefined => deskRows(app)[app.chosen];

/** The draft that keys act on: the one that is open, or chosen. */
export function chosenDraft(app: App): DeskDraft | undefined {
  const { layer } = app;
  if (layer?.layer === 'draft') return app.desk?.drafts.find(({ file }) => file === layer.file);
  const row = chosenRow(app);
  return row?.row === 'draft' ? row.draft : undefined;
}
