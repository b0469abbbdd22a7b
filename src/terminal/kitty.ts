import type { Size } from './open-terminal.ts';

/**
 * A PNG for a terminal that knows the Kitty graphics protocol: sent and placed where the cursor stands, which does not move. `id`
 * names picture and placement; the terminal scales it to `columns` by `rows` cells and answers nothing.
 */
export function kittyPicture(png: Uint8Array, id: number, { columns, rows }: Size): string {
  const text = Buffer.from(png.buffer, png.byteOffset, png.byteLength).toString('base64');
  const head = `a=T,f=100,i=${id},p=1,c=${columns},r=${rows},C=1,q=2,`;
  const chunks: string[] = [];
  for (let at = 0; at < Math.max(1, text.length); at += CHUNK) {
    const more = at + CHUNK < text.length ? 1 : 0;
    chunks.push(`\x1b_G${at === 0 ? head : 'q=2,'}m=${more};${text.slice(at, at + CHUNK)}\x1b\\`);
  }
  return chunks.join('');
}

/** Takes a picture away, wherever it is placed, and out of the terminal's memory. */
export const kittyDelete = (id: number): string => `\x1b_Ga=d,d=I,i=${id},q=2\x1b\\`;

/** The protocol's largest piece; each but the last a multiple of 4. */
const CHUNK = 4096;
