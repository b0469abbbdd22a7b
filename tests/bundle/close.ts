import type { HandId } from '../../src/base/brand.ts';
import { formatStamp } from '../../src/base/instant.ts';
import { openHold, setsLeft } from '../../src/bundle/bundle.ts';
import { THE_ROOM } from '../../src/bundle/entries.ts';
import { goodAnswer } from '../../src/bundle/good-answer.ts';
import { concession, finish, handOver, hold, resume, settle } from './deeds.ts';
import { onwards } from './story.ts';
import { attempt, done, release, type World, wants } from './world.ts';

const fresh = 'V-99' as HandId;
const sewer = 'OP-99' as HandId;

/** Name of a text that has never been released before, for a bundle that nobody could open. */
export const FRESH_TEXT = 'f00';

/**
 * Brings a bundle to its end from wherever it stands, as a supervisor and a sewer would who are new to the room, and whom nobody
 * asks for a PIN. Throws when it takes more than `most` commands, or when one of them is refused.
 */
export function closed(world: World, most: number): World {
  let here = [
    { hand: keeperOf(world), do: 'enrol', who: fresh, name: 'Fresh supervisor', role: 'supervisor' } as const,
    ...skillsIn(world).map((skill) => ({ hand: fresh, do: 'set skill', who: fresh, skill, level: 4 }) as const),
    { hand: fresh, do: 'enrol', who: sewer, name: 'Fresh sewer', role: 'sewer' } as const,
  ].reduce<World>(done, { ...world, rule: 'nobody' });
  for (let commands = 0; here.bundle?.work !== 'finished'; commands++) {
    if (commands > most) throw new Error(`not finished after ${most} commands`);
    here = step(here);
  }
  return here;
}

const skillsIn = ({ texts }: World): readonly string[] =>
  [...texts.values()].flatMap(({ steps }) => steps.flatMap(({ facts }) => facts.needsSkill ?? []));

/** Who adds hands: a supervisor, or while there is none the room itself. */
const keeperOf = ({ room }: World): HandId =>
  [...room.hands.values()].find(({ role, retired }) => role === 'supervisor' && !retired)?.id ?? THE_ROOM;

function step(world: World): World {
  const { bundle } = world;
  if (!bundle) throw new Error('there is no bundle to finish');
  if (!bundle.text) return done(done(world, release(FRESH_TEXT, fresh)), { hand: sewer, do: 'open' });
  const open = openHold(bundle);
  if (open) return done(world, settle(concession(formatStamp(world.now).slice(0, 10)), fresh, open.name));
  if (bundle.hand !== sewer) return done(world, handOver(sewer, fresh));
  const wanted = wants(world, sewer);
  switch (wanted.want) {
    case 'resuming':
      return done(world, resume(sewer));
    case 'finish':
      return done(world, finish(setsLeft(bundle).length, sewer));
    case 'point':
      if (wanted.point.kind === 'computed' && !attempt(world, goodAnswer(wanted, sewer, fresh)).result.ok)
        return done(world, hold('point', sewer));
      if (wanted.point.kind === 'computed' && wanted.outside?.hand === sewer) return done(world, hold('point', sewer));
      return onwards(world, sewer, fresh);
    default:
      return onwards(world, sewer, fresh);
  }
}
