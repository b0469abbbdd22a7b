import type { HandId } from '../base/brand.ts';
import { type Refusal, refuse } from '../base/result.ts';
import { canBeOut } from '../procedure/point-limit.ts';
import type { Step } from '../procedure/procedure.ts';
import type { Room } from './room.ts';
import { type Level, levelOf } from './skill.ts';

/**
 * Why this hand must see the explanations of this step; null where they may fold them away, and do first what all
 * its points ask and confirm it then. What hurts, what is measured against something and what cannot be undone is never folded,
 * whoever sews. Beyond that, an operation with a skill takes a hand who can teach it, since whoever teaches knows the words; a step
 * without one takes a hand whom a supervisor lets do some operation alone, so that whoever has been judged by nobody, or is still
 * learning, reads everything.
 */
export function whyNotFolded(room: Room, hand: HandId, step: Step): Refusal | null {
  const { cannotBeUndone, needsSkill } = step.facts;
  if (step.cautions.length > 0) return stays('This step has a caution: its words stay on the screen.');
  if (cannotBeUndone) return stays('This step cannot be undone: its words stay on the screen.');
  if (step.points.some(({ kind }) => kind === 'hold point'))
    return stays('This step has a hold point: its words stay on the screen.');
  if (step.points.some(canBeOut)) return stays('Something in this step has a limit: its words stay on the screen.');
  if (step.prose.trim() === '') return stays('This step has no explanations to fold away: go on with its points.');
  if (needsSkill !== null) {
    const level = levelOf(room, hand, needsSkill);
    return level >= EXPERT
      ? null
      : stays('You do {skill} at level {level}: its words stay on the screen for everybody below 4, can teach.', {
          skill: needsSkill,
          level,
        });
  }
  const best = Math.max(0, ...[...(room.skills.get(hand)?.values() ?? [])].map(({ level }) => level));
  return best >= TRUSTED
    ? null
    : stays('No operation is entered that you do at level 3, alone: its words stay on the screen.');
}

/** In the operation of the step. */
const EXPERT: Level = 4;
/** In any operation, for a step that asks for none. */
const TRUSTED: Level = 3;

const stays = (words: string, values: Refusal['values'] = {}): Refusal => refuse('not-foldable', words, values).error;
