import type { Drawing, Part } from './drawing.ts';

/** The parts that a name brings out: the one with that id, or all that stand in a group with it. */
export const partsNamed = ({ parts }: Drawing, name: string): readonly Part[] => {
  const own = parts.filter(({ id }) => id === name);
  return own.length > 0 ? own : parts.filter(({ groups }) => groups.includes(name));
};

/** Whether a name means this part: its own, or that of a group it stands in. */
export const isNamed = ({ id, groups }: Part, name: string): boolean => id === name || groups.includes(name);

/** What a part is called: by its own id, or else by the group it was put in. */
export const nameOf = ({ id, groups }: Part): string | undefined => id ?? groups.at(-1);
