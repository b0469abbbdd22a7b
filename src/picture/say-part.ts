import { filled } from '../base/result.ts';
import type { AboutPart, NearEdge } from './about-part.ts';

/** A part of a sentence as a catalogue of messages may hold it, and what is put into its braces. */
export interface Clause {
  readonly words: string;
  readonly values: Readonly<Record<string, string | number>>;
}

/** What is brought out as one sentence: `line-D2, Pencil line for D2: 1070 mm long, on B, 72 mm from its upper edge.` */
export function sayPart(about: AboutPart, say: (clause: Clause) => string = inEnglish): string {
  const [first = '', ...rest] = clausesOf(about).map(say);
  return rest.length === 0 ? `${first}.` : `${first}: ${rest.join(', ')}.`;
}

const inEnglish = ({ words, values }: Clause): string => filled(words, values);

function clausesOf({ name, title, parts, size, on, edge, done }: AboutPart): readonly Clause[] {
  const [piece, other] = on;
  const clauses: Clause[] = [{ words: nameWords(name, title), values: { name, title: title ?? '' } }];
  if (size && 'length' in size) clauses.push({ words: '{length} mm long', values: { ...size } });
  else if (size) clauses.push({ words: '{width} by {height} mm', values: { ...size } });
  else if (parts !== null) clauses.push({ words: '{parts} parts', values: { parts } });
  if (piece !== undefined && other !== undefined)
    clauses.push({ words: 'on {piece} and {other}', values: { piece, other } });
  else if (piece !== undefined) clauses.push({ words: 'on {piece}', values: { piece } });
  if (edge) clauses.push(edgeClause(edge, on.length));
  if (done === 'sewn') clauses.push({ words: 'sewn already', values: {} });
  return clauses;
}

/** A title that begins with the name says it already. */
function nameWords(name: string, title: string | null): string {
  if (title === null) return '{name}';
  return title === name || title.startsWith(`${name},`) || title.startsWith(`${name} `) ? '{title}' : '{name}, {title}';
}

function edgeClause({ distance, is }: NearEdge, pieces: number): Clause {
  if ('title' in is) return { words: '{distance} mm from {edge}', values: { distance, edge: shortly(is.title) } };
  if (pieces === 1) return { words: SIDES[is.side].its, values: { distance } };
  return { words: SIDES[is.side].of, values: { distance, piece: is.of } };
}

const SIDES = {
  upper: { its: '{distance} mm from its upper edge', of: '{distance} mm from the upper edge of {piece}' },
  lower: { its: '{distance} mm from its lower edge', of: '{distance} mm from the lower edge of {piece}' },
  left: { its: '{distance} mm from its left edge', of: '{distance} mm from the left edge of {piece}' },
  right: { its: '{distance} mm from its right edge', of: '{distance} mm from the right edge of {piece}' },
} as const;

/** The title of an edge up to its measures, set apart from the sentence as a name: it begins with a capital letter. */
const shortly = (title: string): string => `“${title.split(/,\s/)[0] ?? title}”`;
