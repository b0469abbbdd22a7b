import { isDeepStrictEqual } from 'node:util';
import type { Digest, TicketId } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Bundle } from './bundle.ts';
import { commandOf, ticketOf } from './command-of.ts';
import { decide } from './decide.ts';
import type { EntryDraft, RecordedEntry } from './entries.ts';
import { evolve } from './evolve.ts';
import { currentRelease, emptyRoom, evolveRoom } from './room.ts';

/** Plays a ledger again from its first entry, and says of each entry whether the rules would have let it happen. */
export interface Replay {
  /** Refuses the entry when it could not have come about so; it is folded all the same, so that the next ones can be judged. */
  next(entry: RecordedEntry): Result<void>;
}

/**
 * `texts` gives a procedure by the digest of its understanding. Of a finished bundle only what a rule may ask again is kept, so
 * memory grows with the bundles at work and not with the ledger.
 */
export function replay(texts: (understood: Digest) => Procedure | undefined): Replay {
  let room = emptyRoom;
  const bundles = new Map<TicketId, Bundle>();
  /** What a command with several entries still has to leave. */
  let due: readonly EntryDraft[] = [];

  const understoodFor = (bundle: Bundle | undefined): Digest | undefined =>
    bundle && (bundle.text ?? currentRelease(room, bundle.procedure))?.understood;

  function judge(entry: RecordedEntry): Result<void> {
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
    const decided = decide({ room, bundle, procedure, now }, commandOf(entry));
    if (!decided.ok) return refuse('entry-against-rule', `the rules refuse it: ${decided.error.message}`);
    const [expected, ...others] = decided.value;
    due = others;
    return expected ? agrees(entry, expected) : ok(undefined);
  }

  return {
    next(entry) {
      const judged = judge(entry);
      room = evolveRoom(room, entry);
      const ticket = ticketOf(entry);
      const after = ticket === null ? undefined : evolve(bundles.get(ticket), entry);
      if (ticket !== null && after) bundles.set(ticket, after.work === 'finished' ? withoutWork(after) : after);
      return judged;
    },
  };
}

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
