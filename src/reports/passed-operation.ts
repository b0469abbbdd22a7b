import type { HandId } from '../base/brand.ts';
import { type Bundle, type Check, isGood, liveCheck, pointKey, setsLeft } from '../bundle/bundle.ts';
import { blanksOf, firstOpenBlank } from '../bundle/next.ts';
import { type Place, route } from '../bundle/route.ts';
import type { Step } from '../procedure/procedure.ts';
import { type Past, textOf } from './past.ts';
import type { WhoRow } from './who.ts';

/** The step meant by an operation. */
type IsMeant = (step: Step) => boolean;

/**
 * Who passed an operation, a row for each set of a bundle and each hand in it: on that set every point of the step has an answer
 * that counts, within its limit or let through by a concession. `rows` are those of the same past, and of the revision meant;
 * a set that was scrapped passed nothing. A row stands at the hand's last answer; `took` is all their work on these answers, and
 * the value says how many of the step's answers are theirs.
 */
export function passedOperation(rows: readonly WhoRow[], past: Past, isMeant: IsMeant): readonly WhoRow[] {
  const bySeq = new Map(rows.map((row) => [row.seq, row] as const));
  const found: WhoRow[] = [];
  for (const bundle of past.bundles.values()) {
    const text = textOf(past, bundle.ticket);
    for (const at of text ? route(text, setsLeft(bundle)) : []) {
      if (!isMeant(at.step) || !isPassed(bundle, at)) continue;
      const checks = answersOf(bundle, at);
      for (const hand of new Set(checks.map((check) => check.hand))) found.push(...passedBy(hand, { checks, bySeq }));
    }
  }
  return found.sort((a, b) => a.seq - b.seq);
}

const isPassed = (bundle: Bundle, at: Place): boolean =>
  at.step.points.length > 0 && at.step.points.every((point) => firstOpenBlank(bundle, at, point) === undefined);

function answersOf(bundle: Bundle, { set, step }: Place): readonly Check[] {
  return step.points.flatMap((point) =>
    Array.from({ length: blanksOf(point) }, (_, blank) =>
      liveCheck(bundle, pointKey(set, step.id, point.id), blank + 1),
    ).filter((check) => check !== undefined),
  );
}

interface Answered {
  readonly checks: readonly Check[];
  readonly bySeq: ReadonlyMap<number, WhoRow>;
}

function passedBy(hand: HandId, { checks, bySeq }: Answered): readonly WhoRow[] {
  const own = checks.filter((check) => check.hand === hand);
  const answers = own.flatMap(({ seq }) => bySeq.get(seq) ?? []).sort((a, b) => a.seq - b.seq);
  const last = answers.at(-1);
  if (!last) return [];
  const sum = (of: 'took' | 'waited' | 'lay'): number =>
    // Milliseconds are added as whole numbers: the sum of their fractions would not be exact.
    answers.reduce((all, row) => all + Math.round((row[of] ?? 0) * 1000), 0) / 1000;
  return [
    {
      ...last,
      point: null,
      place: null,
      took: sum('took'),
      waited: sum('waited'),
      lay: sum('lay'),
      typed: null,
      value: `${own.length} of ${checks.length} answers`,
      unit: null,
      limit: null,
      verdict: own.every(isGood) ? 'passed' : 'passed by concession',
      by: null,
      witness: null,
    },
  ];
}
