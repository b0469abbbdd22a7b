import { type Bundle, type Hold, isConceded, pointKey, setsLeft } from '../bundle/bundle.ts';
import type { Past } from './past.ts';
import type { WhoRow } from './who.ts';

/** Holds that nobody has settled yet, as the rows of their stopping. */
export function openHolds(rows: readonly WhoRow[], { bundles, entries }: Past): readonly WhoRow[] {
  const open = new Set(
    entries.flatMap(({ seq, kind, body }) => {
      if (kind !== 'held') return [];
      const hold = holdOf(bundles.get(body.ticket), body.hold);
      return hold && !hold.settled ? [seq] : [];
    }),
  );
  return rows.filter(({ seq }) => open.has(seq));
}

/**
 * What was let through although it is not to the letter, as the rows of its settling: with its limit, its last day, and as the
 * verdict whether it is still in force. `today` is a day (RFC 3339 full-date).
 */
export function concessions(rows: readonly WhoRow[], { bundles, entries }: Past, today: string): readonly WhoRow[] {
  const verdicts = new Map(
    entries.flatMap(({ seq, kind, body }) =>
      kind === 'settled' && body.how.as === 'concession'
        ? [[seq, standing(bundles.get(body.ticket), body.hold, body.how.expires < today)] as const]
        : [],
    ),
  );
  return rows.flatMap((row) => {
    const verdict = verdicts.get(row.seq);
    return verdict === undefined ? [] : [{ ...row, verdict }];
  });
}

/** A name is used once in a bundle. */
const holdOf = (bundle: Bundle | undefined, name: string): Hold | undefined =>
  bundle?.holds.find((hold) => hold.name === name);

/** What a concession is worth: it ends with its last day, with its set, and when the work went back behind its point. */
function standing(bundle: Bundle | undefined, name: string, expired: boolean): string {
  const hold = holdOf(bundle, name);
  if (bundle && hold) {
    const { set, step, point, place } = hold;
    if (set !== null && !setsLeft(bundle).includes(set)) return 'scrapped';
    if (step && point && place && !isConceded(bundle, pointKey(set, step, point), place)) return 'work went back';
  }
  return expired ? 'expired' : 'in force';
}
