import type { Finding } from '../base/finding.ts';
import { type Bundle, type Hold, openHold } from '../bundle/bundle.ts';
import type { Difference } from '../procedure/difference.ts';
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
  /** The key of the row that was chosen last, also while it is away; none before anything was chosen. */
  readonly row?: string;
}

/** Work that needs the whole terminal, and for which the desk gives it away. */
export type Errand =
  /** For an editor, the file to be mended first in front. */
  | { readonly do: 'edit'; readonly files: readonly string[] }
  | { readonly do: 'rehearse' | 'release'; readonly file: string };

/** A draft's main text and those of its sheets in which something was found; what has the first error stands in front. */
export function filesToEdit({ file, findings }: DeskDraft): readonly string[] {
  const first = findings.find(({ severity }) => severity === 'error')?.file ?? file;
  return [...new Set([first, file, ...findings.map((finding) => finding.file)])];
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
const rowKey = (row: DeskRow): string => (row.row === 'draft' ? row.draft.file : row.bundle.ticket);

/** The row that keys act on. */
export const chosenRow = (app: App): DeskRow | undefined => deskRows(app)[app.chosen];

/** The program keeping in mind which row is chosen, by what it is. */
export function keptRow(app: App): App {
  const row = chosenRow(app);
  return app.desk && row ? { ...app, desk: { ...app.desk, row: rowKey(row) } } : app;
}

/** Where the row stands that was chosen last; while it is away, its place. */
export function rowAt(app: App): number {
  const rows = deskRows(app);
  const at = rows.findIndex((row) => rowKey(row) === app.desk?.row);
  return at >= 0 ? at : Math.max(0, Math.min(app.chosen, rows.length - 1));
}

/** At the desk a bundle is looked at: whoever sews it takes it up at the machine. */
export const onlyLooks = ({ home, play }: App): boolean =>
  home === 'desk' && (play?.next.want === 'opening' || play?.next.want === 'resuming');

/** The draft that keys act on: the one that is open, or chosen. */
export function chosenDraft(app: App): DeskDraft | undefined {
  const { layer } = app;
  if (layer?.layer === 'draft') return app.desk?.drafts.find(({ file }) => file === layer.file);
  const row = chosenRow(app);
  return row?.row === 'draft' ? row.draft : undefined;
}
