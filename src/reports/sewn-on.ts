import type { Past } from './past.ts';
import type { WhoRow } from './who.ts';

/** Which bundles were opened on this procedure, and of it on this revision unless that is null: the rows of their opening. */
export function sewnOn(
  rows: readonly WhoRow[],
  { bundles }: Past,
  { procedure, revision }: { readonly procedure: string; readonly revision: string | null },
): readonly WhoRow[] {
  const tickets = new Set<string>();
  for (const bundle of bundles.values())
    if (bundle.procedure === procedure && bundle.text && (revision === null || bundle.text.revision === revision))
      tickets.add(bundle.ticket);
  return rows.filter(({ kind, ticket }) => kind === 'opened' && ticket !== null && tickets.has(ticket));
}
