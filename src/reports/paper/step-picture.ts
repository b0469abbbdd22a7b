import type { Picture } from '../../procedure/procedure.ts';
import { type Html, html, nothing } from './html.ts';

/**
 * A picture within the page. A browser runs no program in it and fetches nothing for it, as it stands in an `img`. What the step is
 * about is drawn thick.
 */
export function stepPicture({ alt, bringOut, address }: Picture, pictures: ReadonlyMap<string, Uint8Array>): Html {
  const bytes = pictures.get(address);
  if (!bytes) return html`<p>[${alt}]</p>`;
  const { kind, content } = drawn(bytes, bringOut);
  const data = `data:${kind};base64,${Buffer.from(content).toString('base64')}`;
  return html`<figure><img src="${data}" alt="${alt}"><figcaption>${alt}${bringOut.length > 0 ? html` (${bringOut.join(', ')})` : nothing}</figcaption></figure>`;
}

interface Drawn {
  readonly kind: 'image/png' | 'image/jpeg' | 'image/svg+xml';
  readonly content: Uint8Array;
}

function drawn(bytes: Uint8Array, bringOut: readonly string[]): Drawn {
  if (bytes[0] === 0x89 && bytes[1] === 0x50) return { kind: 'image/png', content: bytes };
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return { kind: 'image/jpeg', content: bytes };
  return { kind: 'image/svg+xml', content: broughtOut(bytes, bringOut) };
}

/** The drawing with a rule of style at its end, the last of which counts; lines of 0.6 % of the drawing's size are thick at any size. */
function broughtOut(bytes: Uint8Array, ids: readonly string[]): Uint8Array {
  const svg = new TextDecoder().decode(bytes);
  const end = svg.lastIndexOf('</svg');
  if (ids.length === 0 || end < 0) return bytes;
  const names = ids.map((id) => `#${cssName(id)}`);
  const rule = `${names.flatMap((name) => [name, `${name} *`]).join()}{stroke:#000;stroke-width:.6%}${names.map((name) => `${name} text`).join()}{stroke:none;font-weight:bold}`;
  return new TextEncoder().encode(`${svg.slice(0, end)}<style>${rule}</style>${svg.slice(end)}`);
}

/** A name as CSS takes it (CSS Syntax, section 4.3.7): every sign that might mean something by its number. */
const cssName = (name: string): string =>
  name.replace(/^\d|[^\w\u00a0-\uffff-]/g, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `);
