import { assertNever } from '../base/assert-never.ts';
import type { HandId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { allChecks, type Bundle } from './bundle.ts';
import type { Command } from './command.ts';
import { type EntryDraft, THE_ROOM } from './entries.ts';
import type { Meaning } from './meaning.ts';
import { secondsToWait } from './pin.ts';
import { nameOf, type Room } from './room.ts';
import { record, type Situation } from './situation.ts';

/** Whose PIN a command takes, and what it is the signature of. */
export interface Signature {
  readonly hand: HandId;
  readonly meaning: Meaning;
}

/** Whose PIN the room asks: of supervisors when they sign, of everybody who signs on too, or (in a rehearsal) of nobody. */
export type PinRule = 'supervisors' | 'everyone' | 'nobody';

/** The signature that a command takes; undefined when it takes none. */
export function signatureFor(
  rule: PinRule,
  room: Room,
  bundle: Bundle | undefined,
  command: Command,
): Signature | undefined {
  const { hand } = command;
  if (rule === 'nobody') return undefined;
  if (command.paper) return typistSigns(command, command.paper.by);
  switch (command.do) {
    case 'settle':
      return { hand, meaning: 'settled' };
    case 'release':
      return { hand, meaning: 'released' };
    case 'withdraw':
      return { hand, meaning: 'withdrawn' };
    case 'check':
      return command.witness === undefined ? undefined : { hand: command.witness, meaning: 'witnessed' };
    case 'strike': {
      const check = bundle && allChecks(bundle).find(({ seq }) => seq === command.entry);
      return check && check.hand !== hand ? { hand, meaning: 'struck' } : undefined;
    }
    case 'print':
      return bundle && bundle.printed > 0 ? { hand, meaning: 'reprinted' } : undefined;
    case 'enrol':
      return hand === THE_ROOM ? undefined : { hand, meaning: 'enrolled' };
    case 'set skill':
      return hand === THE_ROOM ? undefined : { hand, meaning: 'skill entered' };
    case 'retire':
      return hand === THE_ROOM ? undefined : { hand, meaning: 'retired' };
    case 'take key':
      return hand === THE_ROOM ? undefined : { hand, meaning: 'keyed' };
    case 'set pin':
      // The first one is its own proof: there is nothing to compare it with.
      return hand === command.who && !room.pins.has(hand) ? undefined : { hand, meaning: 'PIN set' };
    case 'sign on':
      return rule === 'everyone' || (command.after !== undefined && room.pins.has(hand))
        ? { hand, meaning: 'signed on' }
        : undefined;
    case 'fail pin':
    case 'set language':
    case 'make ticket':
    case 'check gauge':
    case 'open':
    case 'resume':
    case 'pause':
    case 'hand over':
    case 'read changes':
    case 'read caution':
    case 'help':
    case 'start clock':
    case 'go back':
    case 'keep on':
    case 'hold':
    case 'note':
    case 'fit bobbin':
    case 'use thread':
    case 'finish':
      return undefined;
    default:
      return assertNever(command);
  }
}

/** Whoever types a paper in signs when they begin, and for whoever is said to have looked at a hold point. */
function typistSigns(command: Command, by: HandId): Signature | undefined {
  const signs =
    command.do === 'open' || command.do === 'resume' || (command.do === 'check' && command.witness !== undefined);
  return signs ? { hand: by, meaning: 'typed from paper' } : undefined;
}

/**
 * The drafts of a command, marked as signed where it takes a signature and the PIN was proven. The refusals `pin-needed` and
 * `pin-none` say that nothing but the PIN is missing.
 */
export function signed(
  situation: Situation,
  command: Command,
  drafts: readonly EntryDraft[],
): Result<readonly EntryDraft[]> {
  const { room, bundle, now, signing } = situation;
  const asked = signatureFor(signing?.rule ?? 'supervisors', room, bundle, command);
  if (!asked) return ok(drafts);
  const { hand } = asked;
  const name = nameOf(room, hand);
  const pin = room.pins.get(hand);
  if (!pin)
    return refuse('pin-none', '{name} has no PIN to sign with yet: set one with `walkfoot hand pin {name}`.', { name });
  const tries = room.wrongPins.get(hand);
  const wait = secondsToWait(tries, now);
  if (wait > 0)
    return refuse('pin-wait', 'The PIN of {name} was wrong {count} times: wait {wait}, then try again.', {
      name,
      count: tries?.count ?? 0,
      wait: waitWords(wait),
    });
  const proof = signing?.proof;
  if (proof?.hand !== hand || proof.pin !== pin.seq)
    return refuse('pin-needed', '{name} signs this with the PIN of {name}: type it.', { name });
  const proven = tries ? record(situation, hand, [{ kind: 'pin-proven', body: { hand } }]) : ok([]);
  if (!proven.ok) return proven;
  const marked = drafts.map((draft) => ({ ...draft, body: { ...draft.body, signed: true } }) as EntryDraft);
  return ok([...proven.value, ...marked]);
}

export const waitWords = (seconds: number): string =>
  seconds < 60 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`;
