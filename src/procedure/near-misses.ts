import type { Nodes, Root } from 'mdast';
import type { Problem } from '../base/collect-findings.ts';
import type { Source } from '../base/source.ts';
import { endOf, startOf } from './blocks.ts';
import { SIGNAL_WORDS, signalLine } from './cautions.ts';
import { htmlComments } from './html-comments.ts';
import { inlineSpans, type Span } from './inline-spans.ts';
import { isFenced } from './markdown.ts';
import type { Reading } from './reading.ts';
import { noteStruckWords } from './struck-words.ts';

/** What the reading of blocks has made its own, by line. */
export interface ReadLines {
  readonly boxLines: ReadonlySet<number>;
  readonly pointLines: ReadonlySet<number>;
  readonly cautionLines: ReadonlySet<number>;
}

/**
 * Goes over every line that is no code, comment or front matter, and notes what a person would take for a point, a blank, a step
 * or a caution and the reader did not. This is the net under the reader: whatever Markdown makes of a line,
 * a box on it was read as a point or is noted.
 */
export function noteNearMisses(root: Root, lines: ReadLines, { source, note }: Reading): void {
  const noted = new Set<number>();
  const shown = shownText(root, source);
  noteStruckWords(shown, note);
  // Values and words of the kit stand in what is shown, too.
  const [first] = root.children;
  if (first?.type === 'yaml') noteStruckWords(source.text.slice(0, endOf(first)), note);
  for (const [index, text] of shown.split('\n').entries()) {
    const line = index + 1;
    const start = source.lineStarts[index] ?? 0;
    const say = (rule: string, at: number, message: string, found: string, mend: string): undefined => {
      if (!noted.has(line)) note({ rule, at: start + at, message, found, mend } satisfies Problem);
      noted.add(line);
      return undefined;
    };
    const prefix = /^[\s>]*/.exec(text)?.[0].length ?? 0;
    const words = text.slice(prefix);
    if (words === '') continue;
    const hasBox = lines.boxLines.has(line);
    if (!hasBox) checkBox(text, prefix, words, say);
    checkLooseBox(text, hasBox, say);
    if (!lines.pointLines.has(line)) checkBlank(text, words, say);
    if (/^#{2,6}[^#\s]/.test(words)) {
      say('heading-near-miss', prefix, 'This looks like a heading and is none.', words, 'Put a space behind the #.');
    }
    if (!lines.cautionLines.has(line)) checkCaution(words, prefix, say);
  }
}

type Say = (rule: string, at: number, message: string, found: string, mend: string) => undefined;

const WELL_FORMED = /^(?:[-*+]|\d+[.)])\s+\[[ \t]\]\s+\S/;
const BOX = /^((?:[-*+•‣◦–—]|\d+[.)])?\s*)\[([^\S\n]*)(\S?)([^\S\n]*)\](?=([([:]?))/u;
const TICKED = /^[xX✓✔✗✘×oOvVyY]$/;

/** A box drawn some other way: `( )`, `☐`, `[ )`, or half of one. */
const OTHER_BOX =
  /^((?:[-*+•‣◦–—]|\d+[.)])?\s*)(?:[☐□▢◻❏❑]|\\?[[({<［〔【]\s*\\?[\])}>］〕】](?![([])|(?<=[-*+•.)]\s*)(?:\[\s(?!.*\])|\]\s))/u;
const OTHER_TICKED = /^((?:[-*+•‣◦–—]|\d+[.)])?\s*)(?:[☑☒■]|(?<=[-*+•.)]\s+)[({][xX✓✔][)}])/u;

function checkBox(text: string, prefix: number, words: string, say: Say): undefined {
  const found = BOX.exec(words);
  if (!found) return checkOtherBox(prefix, words, say);
  const [, bullet = '', , mark = '', , behind = ''] = found;
  const at = prefix + bullet.length;
  // `[x](address)` and `[x][name]` are links, and `[x]: address` at the margin says where a link leads; nobody links nothing.
  if (mark !== '' && (behind === '(' || behind === '[' || (behind === ':' && bullet === ''))) return undefined;
  if (mark !== '' && !TICKED.test(mark) && !/^[-~+*.?!/☐☑_ ]$/.test(mark)) return undefined;
  if (TICKED.test(mark)) {
    return say(
      'box-ticked',
      at,
      'This box is ticked already, so nobody would be asked.',
      words,
      'Write it empty: - [ ].',
    );
  }
  if (!WELL_FORMED.test(words)) {
    const isEmpty = /^(?:[-*+]|\d+[.)])\s+\[[ \t]\]\s*$/.test(words);
    if (isEmpty)
      return say(
        'point-empty',
        at,
        'This point does not say what is asked.',
        words,
        'Write what is to be done behind the box.',
      );
    return say(
      'box-malformed',
      prefix,
      'This looks like a box and is none.',
      words,
      'Write - [ ] and a space before the words.',
    );
  }
  const isQuoted = text.slice(0, prefix).includes('>');
  const [rule, message, mend] = isQuoted
    ? (['point-in-quote', 'A point cannot stand in a quote.', 'Take the > away.'] as const)
    : ([
        'point-not-read',
        'Markdown takes this line for something else than a point.',
        'Leave an empty line before it and begin it at the margin, outside tables and HTML.',
      ] as const);
  return say(rule, at, message, words, mend);
}

function checkOtherBox(prefix: number, words: string, say: Say): undefined {
  const ticked = OTHER_TICKED.exec(words);
  if (ticked) {
    const at = prefix + (ticked[1] ?? '').length;
    const message = 'This box is ticked already, so nobody would be asked.';
    return say('box-ticked', at, message, words, 'Write it empty: - [ ].');
  }
  if (!OTHER_BOX.test(words)) return undefined;
  const mend = 'Write - [ ] and a space before the words.';
  return say('box-malformed', prefix, 'This looks like a box and is none.', words, mend);
}

function checkLooseBox(text: string, hasBox: boolean, say: Say): undefined {
  const from = hasBox ? text.indexOf(']') + 1 : 0;
  const rest = text.slice(from);
  const found =
    /\\?\[[^\S\n]{1,3}\\?\](?![([:])/.exec(rest) ?? (hasBox ? /(?<=^\s*)\[[xX✓✔]\](?![([:])/.exec(rest) : null);
  if (!found) return undefined;
  const isTable = /^\s*\|/.test(text);
  const message = isTable ? 'A point cannot stand in a table.' : 'A box stands in the middle of a line.';
  return say(
    isTable ? 'point-in-table' : 'box-in-text',
    from + found.index,
    message,
    text,
    'Give each point its own line that begins with - [ ].',
  );
}

function checkBlank(text: string, words: string, say: Say): undefined {
  if (/^(?:_[ \t]*)+$/.test(words)) return undefined;
  const found = /(?<![\\_\p{L}\p{N}])_{4,}|(?<=\s|\()_{2,3}(?=\s|$)/u.exec(text);
  if (!found) return undefined;
  if (/^\s*\|/.test(text)) {
    return say(
      'point-in-table',
      found.index,
      'A blank cannot stand in a table.',
      text,
      'Write a point for it: - [ ], the words and the blank.',
    );
  }
  return say(
    'blank-outside-point',
    found.index,
    'A blank stands outside a point, so nobody would be asked.',
    text,
    'Begin the line with - [ ].',
  );
}

function checkCaution(words: string, prefix: number, say: Say): undefined {
  const signal = signalLine(words.replace(/^(?:[-*+]|\d+[.)])\s+(?:>\s*)*/, ''));
  if (!signal?.isBold || !SIGNAL_WORDS.some((word) => word === signal.word)) return undefined;
  return say(
    'caution-not-read',
    prefix,
    'This looks like a caution, but is not read as one.',
    words,
    `Begin the line with > **${signal.word}** at the margin, under its step.`,
  );
}

/** The text of the file with front matter, fenced code, code spans and comments blanked out. */
function shownText(root: Root, source: Source): string {
  const hidden = hiddenSpans(root, source);
  const parts: string[] = [];
  let at = 0;
  for (const { start, end } of hidden) {
    if (end <= at) continue;
    parts.push(source.text.slice(at, start), source.text.slice(Math.max(at, start), end).replace(/[^\n]/g, ' '));
    at = end;
  }
  parts.push(source.text.slice(at));
  return parts.join('');
}

function hiddenSpans(node: Nodes, source: Source): readonly Span[] {
  const start = startOf(node);
  const end = endOf(node);
  const text = (): string => source.text.slice(start, end);
  if (node.type === 'yaml') return [{ start, end }];
  if (node.type === 'code') return isFenced(node) ? [{ start, end }] : [];
  if (node.type === 'html') return htmlComments(text()).map((comment) => moved(comment.start, comment.end, start));
  if (node.type === 'paragraph' || node.type === 'heading') {
    const { codes, comments } = inlineSpans(text());
    // A stray backtick pairs with one some lines below; what looks like a box at the start of a line between them is noted all the same.
    const shown = codes.filter((span) => !/\n[\s>]*(?:[-*+]|\d+[.)])?\s*\[/.test(text().slice(span.start, span.end)));
    return [...shown, ...comments].map((span) => moved(span.start, span.end, start)).sort((a, b) => a.start - b.start);
  }
  return 'children' in node ? node.children.flatMap((child) => hiddenSpans(child, source)) : [];
}

const moved = (start: number, end: number, by: number): Span => ({ start: start + by, end: end + by });
