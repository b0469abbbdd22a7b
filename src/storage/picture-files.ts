import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, extname, isAbsolute, join, resolve } from 'node:path';
import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { digestOf } from '../ledger/leaf.ts';
import { nameInside } from './name-inside.ts';
import { codeOf, refuseTrouble } from './trouble.ts';

/** Bytes; a drawing for a screen is far smaller. */
const PICTURE_LIMIT = 5_000_000;
const KINDS: readonly string[] = ['.svg', '.png', '.jpg', '.jpeg'];

export interface PictureFile {
  /** Relative to the room with forward slashes, such as `media/lining.svg`. */
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly digest: Digest;
}

/** The room's folder of pictures, if it has one. */
export function pictureFolders(room: string): readonly string[] {
  const media = join(room, 'media');
  return existsSync(media) ? [media] : [];
}

/**
 * Reads a picture by the address a procedure of the room gives it (without fragment), relative to the procedure's own file.
 * It must lie in the room, also after all links are followed, be of a kind that is shown, and not be too large.
 *
 * @param room the room's `folder`
 * @param procedure name of the procedure's file relative to the room, such as `procedures/LIN-2207.md`; absolute when it is outside
 */
export function readPicture(room: string, procedure: string, address: string): Result<PictureFile> {
  const written = pathIn(address);
  if (written === undefined) {
    return refuse(
      'picture-address',
      `The picture ${address} is not named by a path in the room: put it into media/ and write ../media/ and its name.`,
    );
  }
  const place = resolve(room, dirname(procedure), written);
  if (nameInside(room, place) === undefined) return outside(address, procedure);
  try {
    const real = realpathSync(place);
    const name = nameInside(room, real);
    if (name === undefined) return outside(address, procedure);
    const found = statSync(real);
    if (!found.isFile() || ![place, real].every((path) => KINDS.includes(extname(path).toLowerCase()))) {
      return refuse('picture-kind', `The picture ${address} cannot be shown: use a file of kind ${KINDS.join(', ')}.`);
    }
    if (found.size > PICTURE_LIMIT) {
      return refuse('picture-large', `The picture ${address} is larger than 5 MB: make it smaller.`);
    }
    const bytes = readFileSync(real);
    return ok({ name, bytes, digest: digestOf(bytes) });
  } catch (error) {
    if (codeOf(error) === 'ENOENT')
      return refuse('picture-missing', `There is no picture ${address}: put it into media/, or mend its address.`);
    return refuseTrouble('picture-unreadable', error, place);
  }
}

/** The relative path in an address, its percent signs resolved; `undefined` for addresses of the network or of this machine. */
function pathIn(address: string): string | undefined {
  let path: string;
  try {
    path = decodeURIComponent(address);
  } catch {
    return undefined;
  }
  return path === '' || /^[a-z][a-z0-9+.-]*:|^\/|[\\\u0000?]/i.test(path) ? undefined : path;
}

/** Where the text itself is of elsewhere, so are its pictures: it is the room that was named wrongly. */
const outside = (address: string, procedure: string): ReturnType<typeof refuse> =>
  isAbsolute(procedure)
    ? refuse(
        'picture-outside',
        `The picture ${address} lies outside this room, as its text does: name the room of both with --room.`,
      )
    : refuse('picture-outside', `The picture ${address} lies outside the room: copy it into media/.`);
