import type { Bundle, Check, Signed } from '../bundle/bundle.ts';
import { allChecks } from '../bundle/bundle.ts';
import type { SettleHow } from '../bundle/command.ts';
import type { Meaning } from '../bundle/meaning.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Plain, Say } from '../words/say.ts';
import { dayAndTime } from './when.ts';
import { placeOf } from './words.ts';

/** `witnessed: Vera with PIN, 25 Nov 2026 10:42`: meaning, printed name, date and time of a signature. */
export const signedWords = (say: Say, room: Room, meaning: Meaning, { by, at, signed }: Signed): string => {
  const name = nameOf(room, by);
  return `${say(meaning)}: ${signed ? say('{name} with PIN', { name }) : name}, ${dayAndTime(say, at)}`;
};

/** The ways of settling a hold, in words. */
export const settledWays = {
  rework: 'rework',
  recut: 'recut',
  concession: 'concession',
  scrap: 'scrap',
} as const satisfies Readonly<Record<SettleHow['as'], Plain>>;

/** The signature under a check: of a hold point by its witness, else by the hand. */
export const checkSigned = (say: Say, room: Room, { hand, witness, at, signed }: Check): string =>
  witness === undefined
    ? signedWords(say, room, 'done', { by: hand, at })
    : signedWords(say, room, 'witnessed', { by: witness, at, signed });

/** Everything that was signed for a finished bundle as a whole: its end, the hold points that count, the holds settled. */
export function bundleSigned(say: Say, room: Room, bundle: Bundle, procedure: Procedure): readonly string[] {
  const { hand, lastAt, holds } = bundle;
  const end = hand === null ? [] : [signedWords(say, room, 'done', { by: hand, at: lastAt })];
  const looked = allChecks(bundle).filter(({ witness, struck, again }) => witness !== undefined && !struck && !again);
  const settled = holds.flatMap((hold) => (hold.settled ? [{ ...hold, settled: hold.settled }] : []));
  return [
    ...end,
    ...looked.map((check) => `${checkSigned(say, room, check)} · ${where(say, procedure, check)}`),
    ...settled.map(
      (hold) =>
        `${signedWords(say, room, 'settled', hold.settled)} · ${hold.name}, ${say(settledWays[hold.settled.how.as])}`,
    ),
  ];
}

function where(say: Say, { steps }: Procedure, check: Check): string {
  const found = steps.find(({ id }) => id === check.step);
  const text = found?.points.find(({ id }) => id === check.point)?.text ?? check.point;
  return `${placeOf(say, check, found?.number)}, ${text}`;
}
