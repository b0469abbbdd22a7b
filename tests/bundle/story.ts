import { expect } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import type { EntryKind } from '../../src/bundle/entries.ts';
import { goodAnswer, patience } from '../../src/bundle/good-answer.ts';
import type { Proof } from '../../src/bundle/pin.ts';
import type { Procedure } from '../../src/procedure/procedure.ts';
import { attempt, done, ines, later, olaf, type World, wants, worldOf } from './world.ts';

/** Something that happens in a story: a command, or a change of the world such as time going by. */
type Deed = Command | ((world: World) => World);

/** A kind of entry with what matters of its body. */
export type Left = readonly [EntryKind, object?];

/** What has been done on a bundle of this text, each thing with success and a minute after the other; then one try. */
export function given(start: Procedure | World, ...deeds: readonly Deed[]) {
  const world = deeds.reduce(happens, 'steps' in start ? worldOf(start) : start);
  return {
    world,
    when(command: Command | ((world: World) => Command), proof?: Proof | null) {
      const { world: after, result } = attempt(world, typeof command === 'function' ? command(world) : command, proof);
      return {
        leaves(...entries: readonly Left[]): World {
          const left = result.ok ? result.value.map(({ kind, body }) => [kind, body]) : result.error;
          expect(left).toMatchObject(entries.map(([kind, body = {}]) => [kind, body]));
          return after;
        },
        refused(rule: string, words = /^\S.+[.]$/u): World {
          expect(result).toMatchObject({ ok: false, error: { rule, message: expect.stringMatching(words) } });
          expect(after).toBe(world);
          return after;
        },
      };
    },
  };
}

const happens = (world: World, deed: Deed): World => (typeof deed === 'function' ? deed(world) : done(world, deed));

/** Answers the point that is wanted, with what is typed. */
export const answer =
  (
    typed = '',
    { by = ines, ...rest }: { readonly by?: HandId; readonly witness?: HandId; readonly place?: number } = {},
  ) =>
  (world: World): Command => {
    const wanted = wants(world, by);
    if (wanted.want !== 'point') throw new Error(`not a point but ${wanted.want} is wanted`);
    const { at, point, place } = wanted;
    return { hand: by, do: 'check', set: at.set, step: at.step.id, point: point.id, place, typed, ...rest };
  };

/** The same as a thing that has been done. */
export const answered =
  (...args: Parameters<typeof answer>) =>
  (world: World): World =>
    done(world, answer(...args)(world));

const LONGEST_STORY = 500;

/** Reads every caution and answers every point well, up to the point of this name (of this set) or to the finish. */
export const upTo =
  (
    point: string,
    { set, by = ines, witness = olaf }: { readonly set?: number; readonly by?: HandId; readonly witness?: HandId } = {},
  ) =>
  (world: World): World => {
    let here = world;
    for (let things = 0; things < LONGEST_STORY; things++) {
      const wanted = wants(here, by);
      if (wanted.want === point) return here;
      if (wanted.want === 'point' && wanted.point.id === point && (set ?? wanted.at.set) === wanted.at.set) return here;
      here = onwards(here, by, witness);
    }
    throw new Error(`${point} is never reached`);
  };

/** The world after one thing done well: whatever is wanted of this hand, when the clock has run long enough. */
export const onwards = (world: World, by: HandId, witness: HandId): World =>
  done(patiently(world, by), onward(world, by, witness));

/** The command that does well what is wanted of this hand, a caution or a point. */
export function onward(world: World, by: HandId, witness: HandId): Command {
  const wanted = wants(world, by);
  if (wanted.want === 'point') return goodAnswer(wanted, by, witness);
  if (wanted.want === 'helping')
    return { hand: by, do: 'help', set: wanted.at.set, step: wanted.at.step.id, by: witness };
  if (wanted.want !== 'caution') throw new Error(`nothing to be done but ${wanted.want}`);
  const { at, number } = wanted;
  return { hand: by, do: 'read caution', set: at.set, step: at.step.id, caution: number };
}

/** The moment when a running clock has run long enough. */
export function patiently(world: World, by: HandId): World {
  const wanted = wants(world, by);
  return wanted.want === 'point' && wanted.clock ? later(world, patience(wanted)) : world;
}

export const wait =
  (ms: number) =>
  (world: World): World =>
    later(world, ms);
