import type { HandId } from '../../src/base/brand.ts';
import type { SetNumber } from '../../src/bundle/bundle.ts';
import type { Command, SettleHow } from '../../src/bundle/command.ts';
import { ines, olaf, pointId, stepId } from './world.ts';

type Do<K extends Command['do']> = Extract<Command, { readonly do: K }>;

/** Commands of stories in a few words, by Ines and (settling) Olaf unless somebody else is named. */
export const open: Command = { hand: ines, do: 'open' };
export const leave: Do<'pause'> = { hand: ines, do: 'pause' };
export const resume = (hand: HandId = ines): Command => ({ hand, do: 'resume' });
export const handOver = (to: HandId, hand: HandId = ines): Command => ({ hand, do: 'hand over', to });
export const readChanges = (hand: HandId = ines, change = 1, of = change): Command => ({
  hand,
  do: 'read changes',
  change,
  of,
});
export const note = (text: string, hand: HandId = ines): Command => ({ hand, do: 'note', text });
export const finish = (good: number, hand: HandId = ines): Command => ({ hand, do: 'finish', good });
export const strike = (entry: number, hand: HandId = ines, reason = 'wrong key'): Command => ({
  hand,
  do: 'strike',
  entry,
  reason,
});
export const goBack = (reason = 'line is off'): Command => ({ hand: ines, do: 'go back', reason });
export const signOn = (hand: HandId = ines): Command => ({ hand, do: 'sign on' });

/** Some PIN or other: here nobody compares it. */
export const setPin = (who: HandId, hand: HandId = who): Do<'set pin'> => ({
  do: 'set pin',
  hand,
  who,
  salt: 'ab'.repeat(16),
  hash: 'cd'.repeat(32),
  n: 2,
  r: 1,
  p: 1,
});

export const hold = (about: 'point' | 'bundle' = 'point', hand: HandId = ines, name?: string): Do<'hold'> => ({
  hand,
  do: 'hold',
  about,
  reason: 'a hole',
  ...(name === undefined ? {} : { name }),
});
export const settle = (how: SettleHow, hand: HandId = olaf, name = 'H-001'): Do<'settle'> => ({
  hand,
  do: 'settle',
  hold: name,
  how,
  reason: 'looked at it',
});
export const rework = (step: string, set?: SetNumber): SettleHow => ({
  as: 'rework',
  step: stepId(step),
  ...(set === undefined ? {} : { set }),
});
export const recut = (step: string, newPiece = 'C-R1'): Extract<SettleHow, { readonly as: 'recut' }> => ({
  as: 'recut',
  step: stepId(step),
  piece: 'C',
  newPiece,
  roll: 'R-322',
});
export const concession = (
  expires = '2026-12-31',
  limit = 'one panel',
): Extract<SettleHow, { readonly as: 'concession' }> => ({
  as: 'concession',
  limit,
  expires,
});
export const scrap = (set: number): SettleHow => ({ as: 'scrap', set });

export const check = (step: string, point: string, set: SetNumber, place = 1, hand: HandId = ines): Command => ({
  hand,
  do: 'check',
  step: stepId(step),
  point: pointId(point),
  set,
  place,
  typed: '',
});
export const startClock = (step: string, point: string, set: SetNumber = 1): Command => ({
  hand: ines,
  do: 'start clock',
  step: stepId(step),
  point: pointId(point),
  set,
});
export const readCaution = (step: string, set: SetNumber, caution = 1, hand: HandId = ines): Command => ({
  hand,
  do: 'read caution',
  step: stepId(step),
  set,
  caution,
});
