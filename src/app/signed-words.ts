import type { Bundle, Check, Signed } from '../bundle/bundle.ts';
import { allChecks } from '../bundle/bundle.ts';
import type { Meaning } from '../bundle/meaning.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { dayAndTime } from './when.ts';

/** `witnessed: Vera with PIN, 25 Nov 2026 10:42`: meaning, printed name, date and time of a signature. */
export const signedWords = (room: Room, meaning: Meaning, { by, at, signed }: Signed): string =>
  `${meaning}: ${nameOf(room, by)}${signed ? ' with PIN' : ''}, ${dayAndTime(at)}`;

/** The signature under a check: of a hold point by its witness, else by the hand. */
export const checkSigned = (room: Room, { hand, witness, at, signed }: Check): string =>
  witness === undefined
    ? signedWords(room, 'done', { by: hand, at })
    : signedWords(room, 'witnessed', { by: witness, at, signed });

/** Everything that was signed for a finished bundle as a whole: its end, the hold points that count, the holds settled. */
export function bundleSigned(room: Room, bundle: Bundle, procedure: Procedure): readonly string[] {
  const { hand, lastAt, holds } = bundle;
  const end = hand === null ? [] : [signedWords(room, 'done', { by: hand, at: lastAt })];
  const looked = allChecks(bundle).filter(({ witness, struck, again }) => witness !== undefined && !struck && !again);
  const settled = holds.flatMap((hold) => (hold.settled ? [{ ...hold, settled: hold.settled }] : []));
  return [
    ...end,
    ...looked.map((check) => `${checkSigned(room, check)} · ${where(procedure, check)}`),
    ...settled.map((hold) => `${signedWords(room, 'settled', hold.settled)} · ${hold.name}, ${hold.settled.how.as}`),
  ];
}

function where({ steps }: Procedure, { set, step, point }: Check): string {
  const found = steps.find(({ id }) => id === step);
  const text = found?.points.find(({ id }) => id === point)?.text ?? point;
  return `${set === null ? '' : `set ${set}, `}step ${found?.number ?? '?'}, ${text}`;
}
