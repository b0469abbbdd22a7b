import { isDeepStrictEqual } from 'node:util';
import type { Digest, TicketId } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Bundle } from './bundle.ts';
import type { Command } from './command.ts';
import { commandOf, ticketOf } from './command-of.ts';
import { decide } from './decide.ts';
import type { EntryDraft, RecordedEntry } from './entries.ts';
import { evolve } from './evolve.ts';
import { currentRelease, emptyRoom, evolveRoom } from './room.ts';
import { type PinRule, signatureFor } from './signature.ts';
import type { Situation } from './situation.ts';

/** Plays a ledger again from its first entry, and says of each entry whether the rules would have let it happen. */
export interface Replay {
  /** Refuses the entry when it could not have come about so; it is folded all the same, so that the next ones can be judged. */
  next(entry: RecordedEntry): Result<void>;
}

/**
 * `texts` gives a procedure by the digest of its understanding; `pin` is whose PIN was asked, which is nobody's only in a rehearsal. Of a finished bundle only what a rule may ask again is kept, so
 * memory grows with the bundles at work and not with the ledger.
 */
export function replay(texts: (understood: Digest) => Procedure | undefined, pin: PinRule = 'supervisors'): Replay {
  let room = emptyRoom;
  const bundles = new Map<TicketId, Bundle>();
  /** What a command with several entries still has to leave. */
  let due: readonly EntryDraft[] = [];
  /** A right PIN after wrong ones, which belongs to the entry that it opened the way for. */
  let proven: RecordedEntry | null = null;

  const understoodFor = (bundle: Bundle | undefined): Digest | undefined =>
    bundle && (bundle.text ?? currentRelease(room, bundle.procedure))?.understood;

  function judge(entry: Judged, before: RecordedEntry | null): Result<void> {
    const [first, ...rest] = due;
    if (first) {
      due = rest;
      return agrees(entry, first);
    }
    const ticket = ticketOf(entry);
    const bundle = ticket === null ? undefined : bundles.get(ticket);
    const now = parseStamp(entry.at);
    if (!now) throw new Error(`entry ${entry.seq} has no time, which its reader should have refused`);
    const understood = understoodFor(bundle);
    const procedure = understood && texts(understood);
    const command = commandOf(entry);
    const signing = signingOf(entry, command, bundle);
    const decided = decide({ room, bundle, procedure, now, signing }, command);
    if (!decided.ok) return refuse('entry-against-rule', `the rules refuse it: ${decided.error.message}`);
    const drafts = decided.value;
    const isOpened = drafts[0]?.kind === 'pin-proven';
    if (isOpened !== (before !== null))
      return refuse(
        'entry-pin',
        isOpened
          ? 'the wrong PINs before it were not answered by a right one'
          : 'a right PIN was noted before it, and none was asked',
      );
    const [expected, ...others] = isOpened ? drafts.slice(1) : drafts;
    due = others;
    return expected ? agrees(entry, expected) : ok(undefined);
  }

  /** Whose PIN was proven for an entry is what it says itself; whether that was needed is for `decide`. */
  function signingOf(entry: Judged, command: Command, bundle: Bundle | undefined): NonNullable<Situation['signing']> {
    const isSigned = 'signed' in entry.body && entry.body.signed === true;
    // Whether everybody's PIN is asked at sign-on is a setting of the room, and not in the ledger.
    const rule = isSigned && entry.kind === 'signed-on' && !entry.body.after ? 'everyone' : pin;
    const hand = isSigned ? signatureFor(rule, room, bundle, command)?.hand : undefined;
    const known = hand && room.pins.get(hand);
    return { rule, proof: hand && known ? { hand, pin: known.seq } : null };
  }

  function fold(entry: RecordedEntry): void {
    room = evolveRoom(room, entry);
    const ticket = ticketOf(entry);
    const after = ticket === null ? undefined : evolve(bundles.get(ticket), entry);
    if (ticket !== null && after) bundles.set(ticket, after.work === 'finished' ? withoutWork(after) : after);
  }

  return {
    next(entry) {
      const before = proven;
      proven = null;
      if (entry.kind === 'pin-proven') {
        proven = entry;
        if (before) fold(before);
        return before ? refuse('entry-pin', 'two right PINs in a row open the way for nothing') : ok(undefined);
      }
      const judged = judge(entry, before);
      if (before) fold(before);
      fold(entry);
      return judged;
    },
  };
}

/** An entry that answers a command of its own. */
type Judged = Exclude<RecordedEntry, { readonly kind: 'pin-proven' }>;

/** Whatever is asked of a finished bundle is refused, so that it is known and finished is all there is to remember. */
const withoutWork = (bundle: Bundle): Bundle => ({
  ...bundle,
  checks: new Map(),
  cautionsRead: [],
  holds: [],
  conceded: new Map(),
  clocks: new Map(),
});

/** Time and hand come from the entry itself; what it says must follow from what stood before it. */
function agrees(entry: RecordedEntry, expected: EntryDraft): Result<void> {
  if (entry.kind !== expected.kind || entry.hand !== expected.hand || entry.at !== expected.at)
    return refuse('entry-not-due', `${expected.kind} by ${expected.hand} at ${expected.at} was due in its place`);
  if (isDeepStrictEqual(entry.body, expected.body)) return ok(undefined);
  const found: Readonly<Record<string, unknown>> = entry.body;
  const due: Readonly<Record<string, unknown>> = expected.body;
  const wrong =
    [...Object.keys(due), ...Object.keys(found)].find((key) => !isDeepStrictEqual(found[key], due[key])) ?? '';
  return refuse('entry-does-not-follow', `its ${wrong} is ${said(found[wrong])} and should be ${said(due[wrong])}`);
}

const said = (value: unknown): string => (value === undefined ? 'not there' : JSON.stringify(value));
