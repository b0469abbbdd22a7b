import type { Source } from '../../base/source.ts';
import type { Caution, Point, Procedure, Step } from '../procedure.ts';
import { type DrawingAt, type ShownDrawing, shownIn } from './shown-drawing.ts';
import { smallWords, type Words } from './words.ts';

/** What the rules look at: the procedure as it was read, its sentences, and the words of its language. */
export interface Proof {
  readonly procedure: Procedure;
  readonly source: Source;
  readonly words: Words;
  /** Every sentence a sewer reads, in the order title, words, cautions, points of each step; before them those above the first step. */
  readonly sentences: readonly Sentence[];
  /** The words of the whole text, for `mayBeIn`. */
  readonly known: ReadonlySet<string>;
  /** The drawings that the procedure shows, each once, in that order; null where nobody could look for them. */
  readonly drawings: readonly ShownDrawing[] | null;
  /** Offset of the words of a step, a caution or a point. */
  readonly at: (line: number) => number;
  /** Whether the lines at the top say this. */
  readonly says: (key: string) => boolean;
}

interface Sentence {
  readonly text: string;
  readonly of: 'intro' | 'title' | 'words' | 'caution' | 'point';
  readonly step: Step | null;
  /** What it belongs to; sentences of one passage share it. */
  readonly passage: Passage;
  /** Whether it is the first of its passage. */
  readonly first: boolean;
  /** Offset of some words of it, or of its passage where they are not found as they stand (a value was put in). */
  readonly at: (words: string) => number;
}

export interface Passage {
  readonly caution: Caution | null;
  readonly point: Point | null;
  readonly sentences: readonly Sentence[];
}

/** `drawingAt` is null where the drawings are out of reach. */
export function proofOf(
  procedure: Procedure,
  source: Source,
  keys: ReadonlySet<string>,
  words: Words,
  drawingAt: DrawingAt | null,
): Proof {
  const sentences: Sentence[] = [];
  const at = (line: number): number => wordsAt(source, line);
  const add = (text: string, of: Sentence['of'], step: Step | null, belongs: Belongs, from: () => number): void => {
    const passage = { caution: null, point: null, ...belongs, sentences: [] as Sentence[] };
    for (const [index, part] of split(text).entries()) {
      const sentence = { text: part, of, step, passage, first: index === 0, at: finder(source, from, text, part) };
      passage.sentences.push(sentence);
      sentences.push(sentence);
    }
  };
  let reached = 0;
  for (const paragraph of paragraphs(procedure.intro)) {
    reached = Math.max(reached, source.text.indexOf(paragraph.slice(0, PROBE), reached));
    const from = reached;
    add(paragraph, 'intro', null, {}, () => from);
  }
  for (const step of procedure.steps) {
    const from = (): number => at(step.line);
    add(step.title, 'title', step, {}, from);
    for (const paragraph of paragraphs(step.prose)) add(paragraph, 'words', step, {}, from);
    for (const caution of step.cautions) add(caution.text, 'caution', step, { caution }, () => at(caution.line));
    for (const point of step.points) add(point.text, 'point', step, { point }, () => at(point.line));
  }
  const drawings = drawingAt && shownIn(procedure, drawingAt);
  return {
    procedure,
    source,
    words,
    drawings,
    sentences,
    known: smallWords(source.text),
    at,
    says: (key) => keys.has(key),
  };
}

type Belongs = Partial<Pick<Passage, 'caution' | 'point'>>;

/** Past what Markdown puts before the words of a line: hashes, quotes, bullets, boxes. */
function wordsAt(source: Source, line: number): number {
  const start = source.lineStarts[line - 1] ?? 0;
  const lead = /^[\s>#]*(?:(?:[-*+]|\d+[.)])\s+\[[ \t]\]\s+)?/.exec(source.text.slice(start, start + 40))?.[0] ?? '';
  return start + lead.length;
}

/** Tables, code and headings are no sentences; a bullet is one by itself. */
function paragraphs(markdown: string): readonly string[] {
  if (markdown === '') return [];
  return markdown
    .split(/\n{2,}|\n(?=\s*(?:[-*+]|\d+[.)])\s)/)
    .filter((text) => !/^\s*(?:\||```|~~~|<|#)/.test(text))
    .map((text) => text.replace(/^\s*(?:[-*+]|\d+[.)])\s+/, ''));
}

/** At a full stop, colon or semicolon with a space behind it. Stars, as in *why it matters*, are no words. */
function split(text: string): readonly string[] {
  return text
    .replace(/[*`\n]/g, (mark) => (mark === '\n' ? ' ' : ''))
    .split(/(?<=[.:;!?]["”)]?)\s+/)
    .filter((part) => part !== '');
}

/** Looked for only once there is something to say. */
function finder(source: Source, from: () => number, text: string, part: string): (words: string) => number {
  return (words) => {
    const start = from();
    const passage = flexible(text).exec(source.text.slice(start))?.index ?? 0;
    const sentence = flexible(part).exec(source.text.slice(start + passage))?.index ?? 0;
    const inside = start + passage + sentence;
    const found = flexible(words).exec(source.text.slice(inside, inside + part.length * 2 + 40))?.index ?? 0;
    return inside + found;
  };
}

/** So many characters of a sentence are enough to find it; a pattern of thousands is more than the engine takes. */
const PROBE = 40;

/** The words however their line is broken and whatever stars stand between them. */
const flexible = (words: string): RegExp =>
  new RegExp(
    words
      .trim()
      .slice(0, PROBE)
      .split(/[\s*`]+/)
      .map(RegExp.escape)
      .join('[\\s*`>]+'),
  );
