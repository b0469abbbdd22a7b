import { sameName } from '../bundle/same-name.ts';
import type { Past } from './past.ts';
import type { WhoRow } from './who.ts';

/**
 * What says that a bundle used this roll: its ticket, a piece recut from it, or a sewer who wrote it down where the roll was
 * asked for.
 */
export function usedRoll(rows: readonly WhoRow[], { entries }: Past, roll: string): readonly WhoRow[] {
  const naming = new Set<number>();
  for (const { seq, kind, body } of entries) {
    const names =
      kind === 'ticketed'
        ? body.rolls
        : kind === 'settled' && body.how.as === 'recut'
          ? [body.how.roll ?? '']
          : kind === 'checked' && body.unit === null
            ? [body.value]
            : [];
    if (names.some((name) => sameName(name, roll))) naming.add(seq);
  }
  return rows.filter(({ seq }) => naming.has(seq));
}
