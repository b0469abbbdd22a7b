import type { HandId } from '../base/brand.ts';
import { type Instant, parseStamp } from '../base/instant.ts';
import { type Result, refuse } from '../base/result.ts';
import type { Bundle } from './bundle.ts';
import type { Command } from './command.ts';
import { nameOf, type Release, type Room, releasesOf } from './room.ts';
import { actor, type BundleSituation, workers } from './situation.ts';

/** An entry that was written on paper first: when it was done, as the paper says (RFC 3339), and who typed it in afterwards. */
export interface FromPaper {
  readonly doneAt: string;
  readonly by: HandId;
}

/** What can stand on paper: the work itself. Who settles or strikes does it at the station, and signs. */
const ON_PAPER: ReadonlySet<Command['do']> = new Set([
  'open',
  'resume',
  'pause',
  'read caution',
  'help',
  'check',
  'go back',
  'hold',
  'note',
  'finish',
]);

/** A refusal of what is never done on paper, so that nobody gets round a signature by it. */
export const neverOnPaper = ({ paper, do: what }: Command): Result<never> | undefined =>
  paper && !ON_PAPER.has(what)
    ? refuse('not-on-paper', 'That is not done on paper: do it at the station, when the paper is typed in.')
    : undefined;

/** Why a command cannot have been on paper so; undefined when it can, or was on none. */
export function notOnPaper(situation: BundleSituation, command: Command): Result<never> | undefined {
  const { room, bundle, now } = situation;
  const { paper, hand } = command;
  if (!paper) return undefined;
  const typist = actor(room, paper.by, workers);
  if (!typist.ok) return typist;
  const wrong = wrongTime(bundle, paper.doneAt, now);
  if (wrong) return wrong;
  if (command.do !== 'check' || command.witness === undefined) return undefined;
  // A handwritten name proves nothing here, so somebody who may look themselves answers for it.
  const may = actor(room, paper.by, ['supervisor']);
  if (!may.ok) return may;
  if (paper.by === hand)
    return refuse('paper-own', '{name} did this: let another supervisor type in who looked at it.', {
      name: nameOf(room, hand),
    });
  return undefined;
}

/** Why nothing can have been done to the bundle then, as an RFC 3339 stamp; undefined when it can. */
export function wrongTime(
  { workedAt }: Pick<Bundle, 'workedAt'>,
  doneAt: string,
  now: Pick<Instant, 'ms'>,
): Result<never> | undefined {
  const done = parseStamp(doneAt);
  if (!done)
    return refuse('paper-time', 'Type the time as it stands on the paper, such as @10:42 or @2026-11-24 10:42.');
  if (done.ms > now.ms)
    return refuse('paper-early', 'That time is still to come: type the time as it stands on the paper.');
  const before = workedAt === null ? undefined : parseStamp(workedAt);
  // Paper tells the time to the minute.
  if (!before || done.ms >= before.ms - (before.ms % 60_000)) return undefined;
  return refuse(
    'paper-order',
    'The entry before was at {time}, and this one would be earlier: type the time as it stands on the paper.',
    { time: (workedAt ?? '').slice(0, 16).replace('T', ' ') },
  );
}

/**
 * The text that a paper was of: the one in use when the bundle's sheet was printed, or, of a blank form, when the work was begun. Undefined where
 * none was.
 */
export function releaseOnPaper(room: Room, { procedure, sheetAt }: Bundle, doneAt: string): Release | undefined {
  const [printed, begun] = [sheetAt, doneAt].map((stamp) => (stamp === null ? undefined : parseStamp(stamp)?.ms));
  if (begun === undefined) return undefined;
  const until = begun + 59_999;
  const at = printed !== undefined && printed <= until ? printed : until;
  const before = (stamp: string): boolean => (parseStamp(stamp)?.ms ?? 0) <= at;
  const release = releasesOf(room, procedure).findLast((each) => before(each.at));
  return release?.withdrawn && before(release.withdrawn.at) ? undefined : release;
}
