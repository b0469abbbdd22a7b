import { assertNever } from '../base/assert-never.ts';
import type { Digest, HandId, StepId, TicketId } from '../base/brand.ts';
import { byTime } from '../base/instant.ts';
import {
  allChecks,
  type Bundle,
  type Check,
  type Checks,
  checksOf,
  pointKey,
  type RunningClock,
  type SetNumber,
  type Signed,
  setsLeft,
  stepKey,
  stepOf,
} from './bundle.ts';
import { doneAt } from './done-at.ts';
import { ranOn } from './elapsed.ts';
import type { Body, RecordedEntry } from './entries.ts';
import { passed } from './passed.ts';

/**
 * The bundle after one more entry. `undefined` stands for a ticket nobody has made yet; entries without a ticket, or
 * before `ticketed`, leave it as it is.
 */
export function evolve(bundle: Bundle | undefined, entry: RecordedEntry): Bundle | undefined {
  if (!isAboutBundle(entry)) return bundle;
  if (entry.kind === 'ticketed') return bundle ?? ticketed(entry, entry.body);
  if (!bundle) return undefined;
  const at = doneAt(entry);
  const workedAt = isWork(entry) ? at : bundle.workedAt;
  const before = { ...bundle, workedAt, lastSeq: entry.seq, entries: entry.body.nth };
  // Paper tells the time to the minute: it sets no running clock back.
  const isWithin = 'paper' in entry.body && bundle.clocks.size > 0 && passed(bundle.lastAt, at).setBackMs > 0;
  const after = happened(isWithin ? before : { ...before, clocks: runOn(bundle, at), lastAt: at }, entry);
  return after.work === bundle.work ? after : { ...after, workSince: at };
}

/** What was done at the table, whenever it was written down; a ticket printed or a note taken is none of it. */
const isWork = ({ kind, body }: AboutBundle): boolean =>
  WORK.has(kind) || ('paper' in body && body.paper !== undefined);

const WORK: ReadonlySet<RecordedEntry['kind']> = new Set([
  'caution-read',
  'helped',
  'clock-started',
  'checked',
  'sent-back',
  'finished',
]);

type AboutBundle = Extract<RecordedEntry, { readonly body: { readonly ticket: TicketId } }>;

const isAboutBundle = (entry: RecordedEntry): entry is AboutBundle => 'ticket' in entry.body;

function happened(bundle: Bundle, entry: Exclude<AboutBundle, { readonly kind: 'ticketed' }>): Bundle {
  switch (entry.kind) {
    case 'opened': {
      const { digest, understood, revision } = entry.body;
      return {
        ...taken(bundle, entry.hand, entry.body),
        text: { digest, understood, revision },
        openedAt: doneAt(entry),
      };
    }
    case 'resumed':
      return taken(bundle, entry.hand, entry.body);
    case 'paused':
      return { ...bundle, work: 'paused' };
    case 'handed-over':
      return { ...bundle, work: 'handed over', hand: entry.body.to };
    case 'finished': {
      const { ticket: _, nth: __, clockBack: ___, paper: ____, ...counts } = entry.body;
      return { ...bundle, work: 'finished', finished: counts };
    }
    case 'changes-read':
      return { ...bundle, changesToRead: changesAfter(bundle, entry.body) };
    case 'caution-read': {
      const { set, step, caution } = entry.body;
      return {
        ...bundle,
        cautionsRead: [...bundle.cautionsRead, { hand: entry.hand, set, step, caution, again: false }],
      };
    }
    case 'helped': {
      const { set, step, by } = entry.body;
      return { ...bundle, helps: [...bundle.helps, { hand: entry.hand, by, set, step }] };
    }
    case 'clock-started': {
      const { set, step, point } = entry.body;
      return {
        ...bundle,
        clocks: new Map(bundle.clocks).set(pointKey(set, step, point), { elapsedMs: 0, owedMs: 0, setBack: false }),
      };
    }
    case 'checked':
      return checked(bundle, entry, entry.body);
    case 'thread-used':
      return { ...bundle, sewn: new Set(bundle.sewn).add(stepKey(entry.body.set, entry.body.step)) };
    case 'bobbin-fitted':
      return bundle;
    case 'struck': {
      const struck = { reason: entry.body.reason, ...signedBy(entry, entry.body) };
      return stillWorked({
        ...bundle,
        checks: eachCheck(bundle, (c) => (c.seq === entry.body.entry ? { ...c, struck } : c)),
      });
    }
    case 'sent-back':
      return askAgain(bundle, entry.body.set, entry.body.again);
    case 'held': {
      const { hold: name, set, step, point, place, reason } = entry.body;
      const hold = { name, set, step, point, place, reason, by: entry.hand, at: doneAt(entry), settled: null };
      return { ...bundle, holds: [...bundle.holds, hold] };
    }
    case 'settled':
      return settled(bundle, entry, entry.body);
    case 'kept-on':
      return { ...bundle, keptOn: { current: entry.body.current, seq: entry.seq } };
    case 'printed':
      return {
        ...bundle,
        printed: bundle.printed + 1,
        sheetAt: entry.body.what === 'sheet' ? entry.at : bundle.sheetAt,
      };
    case 'noted':
      return bundle;
    default:
      return assertNever(entry);
  }
}

/** A time that was typed wrong and is struck holds nothing up any more. */
function stillWorked(bundle: Bundle): Bundle {
  const stands = allChecks(bundle).flatMap(({ struck, at }) => (struck ? [] : [at]));
  const workedAt = [...(bundle.openedAt === null ? [] : [bundle.openedAt]), ...stands].toSorted(byTime).at(-1) ?? null;
  return { ...bundle, workedAt };
}

function ticketed(entry: RecordedEntry, body: Body<'ticketed'>): Bundle {
  return {
    ...body,
    ticketedAt: entry.at,
    text: null,
    work: 'not opened',
    workSince: entry.at,
    hand: null,
    openedAt: null,
    finished: null,
    checks: new Map(),
    cautionsRead: [],
    helps: [],
    sewn: new Set(),
    changesToRead: null,
    holds: [],
    conceded: new Map(),
    scrapped: new Set(),
    clocks: new Map(),
    printed: 0,
    keptOn: null,
    sheetAt: null,
    workedAt: null,
    lastAt: entry.at,
    lastSeq: entry.seq,
    entries: 0,
  };
}

function taken(bundle: Bundle, hand: HandId, { changedFrom }: { readonly changedFrom?: Digest | undefined }): Bundle {
  return { ...bundle, work: 'open', hand, changesToRead: changedFrom ? toRead(bundle, hand, changedFrom) : null };
}

/** Who comes back in the midst of the changes goes on behind those read before. */
function toRead({ changesToRead: known }: Bundle, hand: HandId, from: Digest): NonNullable<Bundle['changesToRead']> {
  return known?.hand === hand && known.from === from ? known : { hand, from, read: 0 };
}

const changesAfter = ({ changesToRead }: Bundle, { change, of }: Body<'changes-read'>): Bundle['changesToRead'] =>
  changesToRead && change !== undefined && change !== of ? { ...changesToRead, read: change } : null;

function checked(bundle: Bundle, entry: RecordedEntry, body: Body<'checked'>): Bundle {
  const { ticket: _, nth: __, clockBack: ___, ...rest } = body;
  const key = pointKey(body.set, body.step, body.point);
  const check: Check = { ...rest, seq: entry.seq, at: doneAt(entry), hand: entry.hand, struck: null, again: false };
  const clocks = new Map(bundle.clocks);
  // Stopped too early is no end: the glue goes on drying, so the clock goes on.
  // A clock that was set back meanwhile can't tell: then it is timed anew.
  if (body.verdict !== 'below' || body.clockWasSetBack || body.clockBack) clocks.delete(key);
  const points = new Map(bundle.checks.get(stepOf(key))).set(key, [...checksOf(bundle, key), check]);
  return { ...bundle, clocks, checks: new Map(bundle.checks).set(stepOf(key), points) };
}

function settled(bundle: Bundle, entry: RecordedEntry, body: Body<'settled'>): Bundle {
  const { hold: name, how, reason } = body;
  const hold = bundle.holds.find((each) => each.name === name && !each.settled);
  const holds = bundle.holds.map((each) =>
    each === hold ? { ...each, settled: { how, reason, ...signedBy(entry, body) } } : each,
  );
  const after = { ...bundle, holds };
  switch (how.as) {
    case 'rework':
    case 'recut':
      return askAgain(after, body.set, how.again);
    case 'scrap':
      return { ...after, scrapped: new Set(bundle.scrapped).add(how.set) };
    case 'concession':
      return hold?.step && hold.point && hold.place
        ? concede(after, pointKey(hold.set, hold.step, hold.point), hold.place)
        : after;
    default:
      return assertNever(how);
  }
}

const signedBy = ({ hand, at }: RecordedEntry, { signed }: { readonly signed?: true | undefined }): Signed => ({
  by: hand,
  at,
  ...(signed ? { signed } : {}),
});

/** Work goes back: checks, cautions, help, clocks and concessions of these steps no longer count for the set and the whole bundle. */
function askAgain(bundle: Bundle, set: SetNumber, steps: readonly StepId[]): Bundle {
  const sets = set === null ? setsLeft(bundle) : [set];
  const again = new Set([null, ...sets].flatMap((of) => steps.map((step) => stepKey(of, step))));
  const concerns = (of: { readonly set: SetNumber; readonly step: StepId }) => again.has(stepKey(of.set, of.step));
  return {
    ...bundle,
    checks: eachCheck(bundle, (check) => (concerns(check) ? { ...check, again: true } : check)),
    cautionsRead: bundle.cautionsRead.map((read) => (concerns(read) ? { ...read, again: true } : read)),
    helps: bundle.helps.filter((help) => !concerns(help)),
    sewn: new Set([...bundle.sewn].filter((key) => !again.has(key))),
    conceded: new Map([...bundle.conceded].filter(([key]) => !again.has(stepOf(key)))),
    clocks: new Map([...bundle.clocks].filter(([key]) => !again.has(stepOf(key)))),
  };
}

const eachCheck = (bundle: Bundle, change: (check: Check) => Check): Checks =>
  new Map(
    [...bundle.checks].map(([step, points]) => [
      step,
      new Map([...points].map(([key, checks]) => [key, checks.map(change)])),
    ]),
  );

const concede = (bundle: Bundle, key: string, place: number): Bundle => ({
  ...bundle,
  conceded: new Map(bundle.conceded).set(key, new Set(bundle.conceded.get(key)).add(place)),
});

function runOn(bundle: Bundle, at: string): ReadonlyMap<string, RunningClock> {
  return new Map([...bundle.clocks].map(([key, clock]) => [key, ranOn(clock, bundle.lastAt, at)]));
}
