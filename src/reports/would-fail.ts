import type { Digest, HandId } from '../base/brand.ts';
import { isGood, liveCheck, pointKey, setsLeft } from '../bundle/bundle.ts';
import { blanksOf } from '../bundle/next.ts';
import { route } from '../bundle/route.ts';
import { fromDecimal } from '../measure/decimal.ts';
import { judge } from '../measure/judge.ts';
import type { Limit } from '../measure/limit.ts';
import { limitChange } from '../measure/limit-change.ts';
import { limitWords } from '../measure/limit-words.ts';
import { convert, findUnit, unitKind } from '../measure/unit.ts';
import { limitOf } from '../procedure/point-limit.ts';
import { type PointPair, pointPairs } from '../procedure/point-pairs.ts';
import type { Point, Procedure } from '../procedure/procedure.ts';
import { type Past, textOf } from './past.ts';

/** A reading that was good when it was taken, and lies outside the limit of another text. */
export interface WouldFail {
  readonly ticket: string;
  readonly revision: string;
  readonly set: number | null;
  /** The step's number and title, and the point's words, in the other text. */
  readonly step: number;
  readonly title: string;
  readonly point: string;
  readonly place: number;
  readonly value: string;
  readonly unit: string;
  readonly limit: string;
  readonly verdict: 'below' | 'above';
  /** How far outside, in the limit's unit. */
  readonly by: string;
  readonly at: string;
  readonly hand: HandId;
  readonly seq: number;
}

/** The readings that count in these bundles, were within their limit, and would not be within that of `after`. In the order of the ledger. */
export function wouldFail(past: Past, after: Procedure): readonly WouldFail[] {
  const found: WouldFail[] = [];
  const narrower = new Map<Digest, ReadonlyMap<Point, PointPair>>();
  for (const bundle of past.bundles.values()) {
    const text = textOf(past, bundle.ticket);
    if (!text || !bundle.text) continue;
    const { understood, revision } = bundle.text;
    const points = narrower.get(understood) ?? narrowed(text, after);
    narrower.set(understood, points);
    for (const { set, step } of points.size === 0 ? [] : route(text, setsLeft(bundle)))
      for (const point of step.points) {
        const pair = points.get(point);
        const limit = pair && limitOf(pair.after.point);
        if (!pair || !limit) continue;
        for (let place = 1; place <= blanksOf(point); place++) {
          const check = liveCheck(bundle, pointKey(set, step.id, point.id), place);
          if (!isGood(check) || check.unit === null) continue;
          const outside = beyond(check.value, check.unit, limit);
          if (!outside) continue;
          const { number, title } = pair.after.step;
          const { value, unit, at, hand, seq } = check;
          const where = {
            ticket: bundle.ticket,
            revision,
            set,
            step: number,
            title,
            point: pair.after.point.text,
            place,
          };
          found.push({ ...where, value, unit, limit: limitWords(limit), ...outside, at, hand, seq });
        }
      }
  }
  return found.sort((a, b) => a.seq - b.seq);
}

/** By the older point: those whose limit in the newer text shuts something out that the older one let through. */
function narrowed(before: Procedure, after: Procedure): ReadonlyMap<Point, PointPair> {
  const pairs = pointPairs(before, after).filter((pair) => {
    const change = limitChange(limitOf(pair.before.point), limitOf(pair.after.point));
    return change === 'tightened' || change === 'shifted' || change === 'added';
  });
  return new Map(pairs.map((pair) => [pair.before.point, pair]));
}

function beyond(value: string, written: string, limit: Limit): Pick<WouldFail, 'verdict' | 'by'> | undefined {
  const unit = findUnit(written);
  if (unit === undefined || unitKind(unit) !== unitKind(limit.unit)) return undefined;
  const verdict = judge(convert(fromDecimal(value), unit, limit.unit), limit);
  return verdict.is === 'below' || verdict.is === 'above' ? { verdict: verdict.is, by: verdict.by } : undefined;
}
