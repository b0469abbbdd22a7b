import type { Area } from './lay-out.ts';
import type { SeenPicture } from './seen-picture.ts';
import type { Wanted } from './standing.ts';

/** What tells one picture from another: the file by its digest, the room for it, and what a drawing is to tell. */
export const pictureKey = (
  { is, digest }: Exclude<SeenPicture, { is: 'unshown' }>,
  { columns, rows }: Area,
  { broughtOut, sewn }: Wanted,
): string => JSON.stringify([digest, columns, rows, ...(is === 'drawing' ? [broughtOut, sewn] : [])]);
