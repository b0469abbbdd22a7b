import type { Playing } from '../../app/room-ledger.ts';
import { assertNever } from '../../base/assert-never.ts';
import type { HandId, StepId, TicketId } from '../../base/brand.ts';
import type { BundleCommand, SettleHow } from '../../bundle/command.ts';
import { blanksOf, type Next, next, type WantedPoint } from '../../bundle/next.ts';
import type { Place } from '../../bundle/route.ts';
import { helpers } from '../../bundle/skill.ts';
import type { Timed } from '../../procedure/procedure.ts';
import { measured } from './measured.ts';
import { seeded } from './seeded.ts';
import { happens, type Stage } from './stage.ts';

/** Who plays which bundle, and what they write. */
export interface Cast {
  readonly ticket: TicketId;
  readonly sewer: HandId;
  /** Looks at hold points. */
  readonly second: HandId;
  /** What is written at a written point, by the beginning of its words. */
  readonly writes: Readonly<Record<string, string>>;
}

/** A place in a bundle: a step by its number, and in it a point by the beginning of its words. */
interface Mark {
  readonly step: number;
  readonly set?: number;
  readonly point?: string;
  /** Which blank of the point; the first unless said. */
  readonly place?: number;
}

/** One bundle told as a story: good work up to a mark, and what the story says there. Everything goes through the ledger. */
export interface BundleStory {
  signsOn(): Promise<void>;
  opens(): Promise<void>;
  resumes(): Promise<void>;
  pauses(reason: string): Promise<void>;
  /** Reads cautions and answers points well until this place is reached, in the time the steps allow. */
  until(mark: Mark | 'all is done'): Promise<void>;
  /** Answers the point that is wanted now; out of its limit or not. */
  reads(typed: string): Promise<void>;
  holds(hold: { readonly name: string; readonly about: 'point' | 'bundle'; readonly reason: string }): Promise<void>;
  settles(by: HandId, hold: string, how: SettleHow, reason: string): Promise<void>;
  notes(text: string, by?: HandId): Promise<void>;
  finishes(good: number): Promise<void>;
  /** The id of a step, for settling. */
  step(number: number): Promise<StepId>;
}

export function bundleStory(stage: Stage, { ticket, sewer, second, writes }: Cast): BundleStory {
  const dice = seeded(Number(/\d+/.exec(ticket)?.[0] ?? 0));
  const does = async (command: BundleCommand, hand = sewer): Promise<void> => {
    await happens(stage, ticket, { hand, ...command });
  };

  async function playing(): Promise<Playing> {
    const found = await stage.ledger.playing(ticket);
    if (!found.ok) throw new Error(`${ticket} cannot be played: ${found.error.message}`);
    return found.value;
  }

  async function wanted(): Promise<Next> {
    const { procedure, bundle } = await playing();
    return next(procedure, stage.ledger.room(), bundle, sewer);
  }

  async function check(point: WantedPoint, typed: string): Promise<void> {
    const witness = point.point.kind === 'hold point' ? { witness: second } : {};
    await does({ do: 'check', ...at(point.at), point: point.point.id, place: point.place, typed, ...witness });
  }

  async function answersWell(here: WantedPoint): Promise<void> {
    const { point } = here;
    stage.time.pass(paceOf(here.at) * (0.7 + 0.6 * dice()));
    switch (point.kind) {
      case 'tick':
      case 'computed':
      case 'hold point':
        return check(here, '');
      case 'reading':
      case 'count':
        return check(here, measured(point, dice));
      case 'choice':
        return check(here, point.options.find((option) => option.acceptable)?.text ?? '');
      case 'written':
        return check(here, written(point.text));
      case 'timed':
        await does({ do: 'start clock', ...at(here.at), point: point.id });
        stage.time.pass(leastSeconds(point) + 5 + 20 * dice());
        return check(here, '');
      default:
        return assertNever(point);
    }
  }

  function written(text: string): string {
    const words = Object.entries(writes).find(([beginning]) => text.startsWith(beginning))?.[1];
    if (words === undefined) throw new Error(`the story of ${ticket} has nothing to write at “${text}”`);
    return words;
  }

  return {
    async signsOn() {
      await happens(stage, null, { hand: sewer, do: 'sign on' });
      stage.time.pass(20);
    },
    opens: () => does({ do: 'open' }),
    resumes: () => does({ do: 'resume' }),
    pauses: (reason) => does({ do: 'pause', reason }),
    async until(mark) {
      for (let before: Next | null = null; ; ) {
        const here = await wanted();
        if (isAt(here, mark)) return;
        if (here.want === 'helping') {
          const [by] = helpers(stage.ledger.room(), sewer, here.skill);
          if (!by) throw new Error(`the story of ${ticket} has nobody who does ${here.skill} alone`);
          stage.time.pass(20);
          await does({ do: 'help', ...at(here.at), by: by.id });
        } else if (here.want === 'caution') {
          stage.time.pass(5 + 3 * dice());
          await does({ do: 'read caution', ...at(here.at), caution: here.number });
        } else if (here.want === 'point' && !isSame(before, here)) {
          await answersWell(here);
        } else {
          throw new Error(`the story of ${ticket} never comes to ${inWords(mark)} but to ${inWords(here)}`);
        }
        before = here;
      }
    },
    async reads(typed) {
      const here = await wanted();
      if (here.want !== 'point') throw new Error(`the story of ${ticket} reads ${typed} where ${inWords(here)} comes`);
      stage.time.pass(paceOf(here.at));
      await check(here, typed);
    },
    async holds(hold) {
      stage.time.pass(90);
      await does({ do: 'hold', ...hold });
    },
    settles: (by, hold, how, reason) => does({ do: 'settle', hold, how, reason }, by),
    async notes(text, by = sewer) {
      stage.time.pass(30);
      await does({ do: 'note', text }, by);
    },
    async finishes(good) {
      stage.time.pass(40);
      await does({ do: 'finish', good });
    },
    async step(number) {
      const id = (await playing()).procedure.steps[number - 1]?.id;
      if (!id) throw new Error(`the story of ${ticket} needs a step ${number}, and there is none`);
      return id;
    },
  };
}

const at = ({ set, step }: Place) => ({ set, step: step.id });

function isAt(here: Next, mark: Mark | 'all is done'): boolean {
  if (mark === 'all is done') return here.want === 'finish';
  if (here.want !== 'caution' && here.want !== 'point') return false;
  const { step, set } = here.at;
  if (step.number !== mark.step || (mark.set !== undefined && set !== mark.set)) return false;
  if (mark.point === undefined) return true;
  return here.want === 'point' && here.point.text.startsWith(mark.point) && here.place === (mark.place ?? 1);
}

/** A point that is wanted again right after it was answered was not answered well. */
const isSame = (before: Next | null, here: WantedPoint): boolean =>
  before?.want === 'point' &&
  before.at.set === here.at.set &&
  before.point === here.point &&
  before.place === here.place;

function inWords(place: Next | Mark | 'all is done'): string {
  if (place === 'all is done') return place;
  if (!('want' in place)) return `step ${place.step}${place.point ? `, “${place.point}”` : ''}`;
  if (place.want !== 'point') return `“${place.want}”`;
  return `step ${place.at.step.number}, “${place.point.text}”${place.outside ? `, read as ${place.outside.value}` : ''}`;
}

/** Seconds for one answer: the step's allowed time, spread over all it asks. */
function paceOf({ step }: Place): number {
  const answers = step.points.reduce((sum, point) => sum + blanksOf(point), 0);
  return (Number(step.facts.allowedMinutes ?? 5) * 60) / Math.max(1, answers);
}

const leastSeconds = ({ limit, unit }: Timed): number => Number(limit?.low ?? 0) * { s: 1, min: 60, h: 3600 }[unit];
