import type { Drawing, Part } from './drawing.ts';

/** The parts that a name brings out: the one with that id, or all that stand in a group with it. */
export const partsNamed = ({ parts }: Drawing, name: string): readonly Part[] => {
  const own = parts.filter(({ id }) => id === name);
  return own.length > 0 ? own : parts.filter(({ groups }) => groups.includes(name));
};
