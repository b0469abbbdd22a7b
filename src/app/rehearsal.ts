import type { Digest, HandId, TicketId } from '../base/brand.ts';
import type { Clock } from '../base/instant.ts';
import { liveCheck, pointKey, setsLeft } from '../bundle/bundle.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { goodAnswer, patience } from '../bundle/good-answer.ts';
import { next, type WantedPoint, wantedPoint } from '../bundle/next.ts';
import { type Place, route } from '../bundle/route.ts';
import { memoryLedger } from '../ledger/memory-ledger.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { type Playing, type RoomLedger, roomLedger } from './room-ledger.ts';
import { understoodText } from './understood.ts';

/** The one ticket of a rehearsal, and who plays it. */
export const REHEARSAL = 'REHEARSAL' as TicketId;
export const REHEARSING = 'you' as HandId;
const SUPERVISOR = 'supervisor' as HandId;

/** A draft's text as it is on the disk. */
interface DraftText {
  readonly name: string;
  readonly digest: Digest;
  readonly bytes: Uint8Array;
}

/** A clock that a rehearsal can set forward: nobody waits for glue that is not there. */
export interface RehearsalClock {
  readonly now: Clock;
  readonly pass: (ms: number) => void;
}

export function rehearsalClock(clock: Clock): RehearsalClock {
  let ahead = 0;
  return {
    now: () => {
      const { ms, offset } = clock();
      return { ms: ms + ahead, offset };
    },
    pass: (ms) => {
      ahead += ms;
    },
  };
}

/** A room of one draft, one ticket and two invented hands: you, and the supervisor who releases hold points and settles holds. */
export async function rehearsalOf(
  { digest, name, bytes }: DraftText,
  procedure: Procedure,
  clock: Clock,
): Promise<RoomLedger> {
  const store = memoryLedger('rehearsal');
  const understood = understoodText(procedure, name);
  await store.keep([{ digest, name, bytes }, understood]);
  const ledger = await roomLedger(store, clock, { pin: 'nobody' });
  const { id, title, sets } = procedure;
  // Nobody else is there to stand by, and the draft is to be seen as an expert may see it, too: so you can teach all of it.
  const skills = ['rehearsing', ...procedure.steps.flatMap(({ facts }) => facts.needsSkill ?? [])];
  const setting: readonly Command[] = [
    { do: 'enrol', hand: THE_ROOM, who: REHEARSING, name: 'you', role: 'sewer' },
    { do: 'enrol', hand: THE_ROOM, who: SUPERVISOR, name: 'supervisor', role: 'supervisor' },
    ...skills.map((skill) => ({ do: 'set skill', hand: SUPERVISOR, who: REHEARSING, skill, level: 4 }) as const),
    {
      do: 'release',
      hand: SUPERVISOR,
      procedure: id,
      title,
      author: REHEARSING,
      supervisors: 'several',
      digest,
      understood: understood.digest,
      pictures: [],
    },
    { do: 'make ticket', hand: THE_ROOM, ticket: REHEARSAL, procedure: id, sets, rolls: [] },
  ];
  for (const command of setting) {
    const done = await ledger.attempt(null, command);
    if (!done.ok) throw new Error(`the rehearsal could not be set: ${done.error.message}`);
  }
  return ledger;
}

/**
 * Brings a rehearsal of the newer text to the place where one of the older text stands: by the step's id, or by its number where that is
 * gone. What was answered stays answered where its point is still asked; what is new before that place is answered well. The bobbin in the
 * machine stays there.
 */
export async function carryOn(from: RoomLedger, fresh: RoomLedger, clock: RehearsalClock): Promise<void> {
  const before = await from.playing(REHEARSAL);
  if (!before.ok) return;
  const old = before.value;
  const goal = await placeOf(old, fresh);
  const attempt = async (command: Command): Promise<boolean> => (await fresh.attempt(REHEARSAL, command)).ok;
  await attempt({ do: 'open', hand: REHEARSING });
  const { bobbin } = from.room();
  if (bobbin !== null) await attempt({ do: 'fit bobbin', hand: REHEARSING, wound: bobbin });
  for (let tries = 0; tries < MOST_ANSWERS; tries++) {
    const now = await fresh.playing(REHEARSAL);
    if (!now.ok) return;
    const { bundle, procedure } = now.value;
    const wanted = next(procedure, fresh.room(), bundle, REHEARSING);
    if (!('at' in wanted)) return;
    const isBefore = indexOf(now.value, wanted.at) < goal;
    if (wanted.want === 'caution') {
      const { at, number: caution } = wanted;
      const wasRead = old.bundle.cautionsRead.some(
        (read) => read.set === at.set && read.step === at.step.id && read.caution === caution,
      );
      if (!isBefore && !wasRead) return;
      if (!(await attempt({ do: 'read caution', hand: REHEARSING, set: at.set, step: at.step.id, caution }))) return;
    } else if (wanted.want !== 'point' || !(await answer(wanted, isBefore))) return;
  }

  async function answer(wanted: WantedPoint, isBefore: boolean): Promise<boolean> {
    const { at, point, place, outside } = wanted;
    // Whoever is there now answers it anew: a limit may have been drawn in behind their answer.
    if (outside !== null && !isBefore) return false;
    const known = liveCheck(old.bundle, pointKey(at.set, at.step.id, point.id), place);
    if (known && outside === null && point.kind !== 'timed') {
      const { typed, witness } = known;
      const where = { set: at.set, step: at.step.id, point: point.id, place };
      if (await attempt({ do: 'check', hand: REHEARSING, ...where, typed, ...(witness ? { witness } : {}) }))
        return true;
    }
    if (!isBefore && !known) return false;
    if (wanted.clock) clock.pass(patience(wanted));
    return attempt(goodAnswer(wanted, REHEARSING, SUPERVISOR));
  }
}

const MOST_ANSWERS = 5000;

/** The place in the newer text's route that the older one stands at; its end when that was done. */
async function placeOf(old: Playing, fresh: RoomLedger): Promise<number> {
  const now = await fresh.playing(REHEARSAL);
  if (!now.ok) return 0;
  if (!old.bundle.text) return 0;
  const wanted = wantedPoint(old.procedure, old.bundle);
  return wanted ? indexOf(now.value, wanted.at) : Number.POSITIVE_INFINITY;
}

function indexOf({ bundle, procedure }: Playing, { set, step }: Place): number {
  const places = route(procedure, setsLeft(bundle));
  const same = places.findIndex((each) => each.set === set && each.step.id === step.id);
  return same >= 0 ? same : places.findIndex((each) => each.step.number >= step.number);
}
