import type { BlockContent, DefinitionContent, List, ListItem, Node, Nodes, RootContent } from 'mdast';
import { readCautions } from './cautions.ts';
import { looksLikeFact, readFact } from './facts.ts';
import { uniqueIds } from './ids.ts';
import { passageOf, verbatim } from './passage.ts';
import { takePictures } from './pictures.ts';
import { readPoint } from './points.ts';
import type { Reading } from './reading.ts';
import type { StepDraft } from './step-draft.ts';
import { insertValues } from './values.ts';

/** What the blocks before the first step and inside the steps are read into. */
export interface Body {
  readonly reading: Reading;
  readonly intro: string[];
  /** Lines on which a point's box was read, or on which it was already noted why not. */
  readonly boxLines: Set<number>;
  /** Lines whose words were read as part of a point. */
  readonly pointLines: Set<number>;
  /** Lines on which a caution begins. */
  readonly cautionLines: Set<number>;
}

/** Reads one block at the top level into its step, or into the words before the first step. */
export function readBlock(block: RootContent, step: StepDraft | null, body: Body): void {
  if (block.type === 'list') readList(block, step, body, uniquePoints(step, body));
  else if (block.type === 'blockquote') readQuote(block, step, body);
  else if (block.type === 'heading' || block.type === 'paragraph') keepProse(block, step, body, 'with values');
  else if (block.type !== 'thematicBreak') keepProse(block, step, body, 'as it is');
  else if (body.reading.source.text.charAt(startOf(block)) === '_') noteLooseBlank(block, body);
}

const pointIds = new WeakMap<StepDraft, ReturnType<typeof uniqueIds>>();

/** One register of ids a step, over all its lists. */
function uniquePoints(step: StepDraft | null, { reading }: Body): ReturnType<typeof uniqueIds> {
  const known = step === null ? undefined : pointIds.get(step);
  if (known) return known;
  const fresh = uniqueIds('point', reading);
  if (step !== null) pointIds.set(step, fresh);
  return fresh;
}

export const startOf = (node: Node): number => node.position?.start.offset ?? 0;
export const endOf = (node: Node): number => node.position?.end.offset ?? startOf(node);
const lineOf = (node: Node): number => node.position?.start.line ?? 1;

/** The paragraph of a list item whose words begin with an empty box. GitHub Flavored Markdown 0.29, section 5.3. */
function boxParagraph(item: ListItem, { reading }: Body): Nodes | undefined {
  const [first] = item.children;
  if (first?.type !== 'paragraph') return undefined;
  return /^\[[ \t\n]\]\s/.test(reading.source.text.slice(startOf(first), startOf(first) + 4)) ? first : undefined;
}

function readList(list: List, step: StepDraft | null, body: Body, unique: ReturnType<typeof uniqueIds>): void {
  const words: string[] = [];
  for (const item of list.children) {
    const paragraph = boxParagraph(item, body);
    if (paragraph) {
      readTask(paragraph, step, body, unique);
      readRest(item.children.slice(1), step, body);
    } else if (!(step && isFact(item, step, body))) {
      noteLostPoints(item, 'list', body);
      words.push(prose(item, step, body));
    }
  }
  if (words.length > 0) (step?.prose ?? body.intro).push(words.join('\n'));
}

function readTask(paragraph: Nodes, step: StepDraft | null, body: Body, unique: ReturnType<typeof uniqueIds>): void {
  const { reading } = body;
  const line = lineOf(paragraph);
  body.boxLines.add(line);

  const at = startOf(paragraph) + 3;
  const end = endOfPoint(paragraph, body);
  const lines = reading.source.text.slice(at, end).split('\n').length;
  for (let next = line; next < line + lines; next += 1) body.pointLines.add(next);
  if (step === null) {
    const mend = 'Put a line such as ## Count the kit above it.';
    const found = reading.source.text.slice(startOf(paragraph), end);
    reading.note({
      rule: 'point-outside-step',
      at: startOf(paragraph),
      message: 'This point belongs to no step.',
      found,
      mend,
    });
    return;
  }
  step.asked += 1;
  if (/\n[ \t>]*\|/.test(reading.source.text.slice(at, end))) {
    const message = 'A table has run into the words of this point.';
    reading.note({
      rule: 'table-in-point',
      at,
      message,
      found: reading.source.text.slice(at, end),
      mend: 'Leave an empty line before the table, and begin it at the margin.',
    });
    return;
  }
  const { passage, pictures } = takePictures(passageOf(reading.source, at, end), reading);
  step.pictures.push(...pictures);
  const draft = readPoint(passage, line, reading);
  if (draft === undefined) return;
  unique(draft.point.id, draft.point.text, draft.at);
  step.points.push(draft);
}

/** Markdown draws a line below without a proper box into the point above it; the point ends before such a line. */
function endOfPoint(paragraph: Nodes, { reading }: Body): number {
  const text = reading.source.text.slice(startOf(paragraph), endOf(paragraph));
  const next = /\n[\s>]*(?:[-*+•–—]|\d+[.)])?\s*\[[^\S\n]*(?:\]|\S[^\S\n]*\](?![([:]))/u.exec(text);
  return next ? startOf(paragraph) + next.index : endOf(paragraph);
}

/** What is written under a point, within its item. */
function readRest(children: readonly (BlockContent | DefinitionContent)[], step: StepDraft | null, body: Body): void {
  for (const child of children) {
    if (child.type === 'thematicBreak') {
      noteLooseBlank(child, body);
      continue;
    }
    noteLostPoints(child, 'list', body);
    (step?.prose ?? body.intro).push(prose(child, step, body));
  }
}

function isFact(item: ListItem, step: StepDraft, { reading }: Body): boolean {
  const [first, ...more] = item.children;
  if (first?.type !== 'paragraph' || more.length > 0) return false;
  const bullet = passageOf(reading.source, startOf(first), endOf(first));
  return readFact(bullet, step.facts, reading);
}

function readQuote(quote: Extract<RootContent, { type: 'blockquote' }>, step: StepDraft | null, body: Body): void {
  const { reading } = body;
  noteLostPoints(quote, 'quote', body);
  const cautions = readCautions(quote, reading);
  if (cautions.length === 0) keepProse(quote, step, body, 'with values');
  for (const caution of cautions) {
    body.cautionLines.add(caution.line);
    const at =
      (reading.source.lineStarts[caution.line - 1] ?? 0) +
      (caution.line === lineOf(quote) ? (quote.position?.start.column ?? 1) - 1 : 0);
    if (step === null) {
      const mend = 'Move it below the ## line of the step where it bites.';
      reading.note({
        rule: 'caution-outside-step',
        at,
        message: 'This caution belongs to no step, so nobody would be shown it.',
        found: caution.text,
        mend,
      });
    } else if (step.asked > 0) {
      const mend = 'Move it above the first point of the step.';
      reading.note({
        rule: 'caution-after-points',
        at,
        message: 'This caution comes after points it should guard.',
        found: caution.text,
        mend,
      });
    }
  }
  step?.cautions.push(...cautions);
}

function keepProse(block: RootContent, step: StepDraft | null, body: Body, how: 'with values' | 'as it is'): void {
  const text =
    how === 'with values' ? prose(block, step, body) : body.reading.source.text.slice(startOf(block), endOf(block));
  if (text.trim() !== '') (step?.prose ?? body.intro).push(text);
}

function prose(node: Node, step: StepDraft | null, { reading }: Body): string {
  const whole = verbatim(reading.source, startOf(node), endOf(node));
  if (step === null) return insertValues(whole, reading).text;
  const { passage, pictures } = takePictures(whole, reading);
  step.pictures.push(...pictures);
  return insertValues(passage, reading).text.trim();
}

function noteLooseBlank(node: Node, { reading }: Body): void {
  const found = reading.source.text.slice(startOf(node), endOf(node));
  const mend = 'Put the blank on the line of its point, or write --- if a rule is meant.';
  reading.note({
    rule: 'blank-malformed',
    at: startOf(node),
    message: 'This blank stands alone on its line.',
    found,
    mend,
  });
}

/** Notes the points and facts inside a block that can hold none. */
function noteLostPoints(node: Nodes, inside: 'list' | 'quote', body: Body): void {
  const { reading } = body;
  if (node.type === 'listItem') {
    const paragraph = boxParagraph(node, body);
    const [first] = node.children;
    if (paragraph) {
      body.boxLines.add(lineOf(paragraph));
      body.pointLines.add(lineOf(paragraph));
      const found = reading.source.text.slice(startOf(paragraph), endOf(paragraph));
      const problem =
        inside === 'quote'
          ? { rule: 'point-in-quote', message: 'A point cannot stand in a quote.' }
          : { rule: 'point-nested', message: 'A point cannot stand inside another item.' };
      reading.note({ ...problem, at: startOf(paragraph), found, mend: 'Begin its line with - [ ] at the margin.' });
    } else if (first?.type === 'paragraph' && isNested(node, body)) {
      const words = reading.source.text.slice(startOf(first), endOf(first));
      if (looksLikeFact(words)) {
        const message = 'This looks like a fact of the step, but stands inside another item.';
        reading.note({
          rule: 'fact-nested',
          at: startOf(first),
          message,
          found: words,
          mend: 'Begin its line with - at the margin.',
        });
      }
    }
  }
  if ('children' in node)
    for (const child of node.children) noteLostPoints(child, node.type === 'blockquote' ? 'quote' : inside, body);
}

/** A bullet at the margin has had its turn as a fact already. */
const isNested = (item: ListItem, { reading }: Body): boolean =>
  startOf(item) - reading.source.text.lastIndexOf('\n', startOf(item) - 1) - 1 > 1;
