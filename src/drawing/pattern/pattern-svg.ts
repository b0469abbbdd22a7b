import { SVGPathData } from 'svg-pathdata';
import { oneLine } from '../../base/text.ts';
import { boxOf, middleOf } from '../box.ts';
import { layOut } from './lay-out.ts';
import type { PatternPiece } from './piece.ts';
import type { Pattern } from './read-pattern.ts';

/** A pattern as a drawing that reads without findings: each part with its id and its class, in millimetres. */
export function patternSvg(pattern: Pattern, title: string): string {
  const { pieces, box } = layOut(pattern.pieces);
  const [width, height] = [Math.ceil(box.width), Math.ceil(box.height)];
  const size = Math.max(width, height);
  const taken = new Set<string>(['names']);
  const named = pieces.map((piece, index) => ({ piece, id: free(idFrom(piece.name ?? `piece-${index + 1}`), taken) }));
  const stroke = short(Math.max(0.5, size / 600));
  const letters = short(Math.max(8, size / 45));
  const looks = `fill="none" stroke="#111" stroke-width="${stroke}" font-family="sans-serif" font-size="${letters}"`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" ${looks}>`,
    `  <title>${safe(title)}</title>`,
    ...named.flatMap(({ piece, id }) => ['', ...pieceLines(piece, id, taken)]),
    '',
    '  <g id="names" fill="#111" stroke="none" text-anchor="middle">',
    ...named.flatMap(({ piece, id }) => nameLine(piece, id)),
    '  </g>',
    '</svg>',
    '',
  ].join('\n');
}

function pieceLines(piece: PatternPiece, id: string, taken: Set<string>): readonly string[] {
  const counts = new Map<string, number>();
  const lines = piece.parts.map(({ kind, prefix, path }) => {
    const isFirst = kind === 'piece' && !counts.has('piece');
    const nth = (counts.get(prefix) ?? 0) + 1;
    counts.set(prefix, nth);
    const own = isFirst ? id : free(`${prefix}-${id}-${nth}`, taken);
    const title = isFirst ? `<title>${safe([piece.name ?? id, ...piece.said].join('; '))}</title>` : '';
    const start = `  <path id="${own}"${kind === 'other' ? '' : ` class="${kind}"`} d="${rounded(path)}"`;
    return title === '' ? `${start}/>` : `${start}>${title}</path>`;
  });
  const words = piece.labels.map(
    ({ words: text, x, y, height }) =>
      `  <text x="${short(x)}" y="${short(y)}"${height > 0 ? ` font-size="${short(height)}"` : ''} fill="#111" stroke="none">${safe(text)}</text>`,
  );
  return [...lines, ...words];
}

function nameLine({ parts }: PatternPiece, id: string): readonly string[] {
  const outline = parts.find(({ kind }) => kind === 'piece');
  if (outline === undefined) return [];
  const [x, y] = middleOf(boxOf(outline.path));
  return [`    <text x="${short(x)}" y="${short(y)}">${id}</text>`];
}

/** A name as an id can have it, and as `Seams:` and pictures can name it. */
function idFrom(name: string): string {
  const tidy = name
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}_-]+/gu, '-')
    .replace(/^[-_]+|[-_]+$/g, '');
  // Not half of a letter of two units.
  return tidy.slice(0, 60).replace(/[\ud800-\udbff]$/, '') || 'piece';
}

function free(id: string, taken: Set<string>): string {
  let own = id;
  for (let nth = 2; taken.has(own); nth++) own = `${id}-${nth}`;
  taken.add(own);
  return own;
}

/** To a ten-thousandth of a millimetre. */
const rounded = (path: string): string => new SVGPathData(path).round(10_000).encode().replaceAll('z', 'Z');
const short = (value: number): number => Number(value.toFixed(3));

/** XML holds no half letters, and not these two. */
const safe = (text: string): string =>
  oneLine(text)
    .toWellFormed()
    .replace(/[\ufffe\uffff]/g, '\ufffd')
    .replace(/[&<>"]/g, (sign) => ENTITIES[sign] ?? sign);
const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
