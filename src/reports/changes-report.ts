import { differenceLine, placeOfDifference } from '../app/difference-words.ts';
import { many } from '../base/many.ts';
import { oneLine, wrap } from '../base/text.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { Difference } from '../procedure/difference.ts';
import { inEnglish } from '../words/say.ts';
import type { WouldFail } from './would-fail.ts';

/** Two texts of a procedure compared. */
export interface Compared {
  readonly procedure: string;
  readonly from: string;
  readonly to: string;
  readonly differences: readonly Difference[];
  readonly wouldFail: readonly WouldFail[];
}

/** The comparison for people, in lines no wider than `width`: step by step, then the readings that would be outside. */
export function changesReport(compared: Compared, room: Room, width: number): readonly string[] {
  const { procedure, from, to, differences, wouldFail } = compared;
  const head = `${procedure}, from ${from} to ${to}: ${differences.length === 0 ? 'nothing that is shown differs' : many(differences.length, 'difference')}.`;
  return [
    ...wrap(head, width),
    ...differencesReport(differences, width),
    '',
    ...wrap(failHead(wouldFail), width),
    ...wouldFail.flatMap((each) => hanging(failLine(each, room), width)),
  ];
}

/** A line below its heading; what does not fit goes on further in. */
const hanging = (text: string, width: number): readonly string[] =>
  wrap(oneLine(text), Math.max(20, width - 4)).map((row, at) => `${at === 0 ? '  ' : '    '}${row}`);

/** Differences step by step, each step under an empty line. */
export function differencesReport(differences: readonly Difference[], width: number): readonly string[] {
  const places = [...new Set(differences.map((each) => placeOfDifference(inEnglish, each)))];
  return places.flatMap((place) => [
    '',
    place,
    ...differences
      .filter((each) => placeOfDifference(inEnglish, each) === place)
      .flatMap((each) => hanging(differenceLine(each).slice(place.length + 2), width)),
  ]);
}

function failHead(readings: readonly WouldFail[]): string {
  if (readings.length === 0) return 'No reading of a past bundle would be outside the newer limits.';
  const bundles = new Set(readings.map(({ ticket }) => ticket)).size;
  return `${many(readings.length, 'reading')} in ${many(bundles, 'bundle')} would be outside the newer limits:`;
}

function failLine(failing: WouldFail, room: Room): string {
  const { ticket, revision, set, step, point, place, value, unit, limit, verdict, by, at, hand } = failing;
  const where = [ticket, `revision ${revision}`, ...(set === null ? [] : [`set ${set}`]), `step ${step}`].join(', ');
  const which = `${point}${place > 1 ? `, place ${place}` : ''}`;
  const out = `${amountWords(value, unit)} is ${amountWords(by, unit)} ${verdict} ${limit}`;
  return `${where}: ${which}: ${out} (${nameOf(room, hand)}, ${at.slice(0, 10)})`;
}
