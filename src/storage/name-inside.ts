import { isAbsolute, relative, sep } from 'node:path';

/**
 * The path as a name relative to the room's folder, with forward slashes; `undefined` when it leads out of the room. Both
 * are absolute; whether links lead out is asked with the path after `realpath`.
 */
export function nameInside(room: string, path: string): string | undefined {
  const name = relative(room, path);
  const leadsOut = name === '' || name === '..' || name.startsWith(`..${sep}`) || isAbsolute(name);
  return leadsOut ? undefined : name.replaceAll(sep, '/');
}
