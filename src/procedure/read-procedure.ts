import type { Code, Heading, Html, Nodes, Root } from 'mdast';
import type { StepId } from '../base/brand.ts';
import { collectFindings } from '../base/collect-findings.ts';
import type { Finding } from '../base/finding.ts';
import { placeOf, type Source, sourceOf } from '../base/source.ts';
import { type Body, endOf, readBlock, startOf } from './blocks.ts';
import { checkFormulas } from './check-formulas.ts';
import { type FrontMatter, NO_FRONT_MATTER, readFrontMatter } from './front-matter.ts';
import { noteHiddenCharacters } from './hidden-characters.ts';
import { htmlComments } from './html-comments.ts';
import { slug, takePin, uniqueIds } from './ids.ts';
import { readIfOut } from './if-out.ts';
import { outsize } from './limits-of-size.ts';
import { isFenced, parseBlocks } from './markdown.ts';
import { noteNearMisses } from './near-misses.ts';
import { passageOf } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { Procedure, Step } from './procedure.ts';
import type { Reading } from './reading.ts';
import { emptyStep, type StepDraft } from './step-draft.ts';
import { insertValues } from './values.ts';

export interface Read {
  readonly procedure: Procedure;
  readonly findings: readonly Finding[];
  /** The lines at the top, for who looks at more than the procedure. */
  readonly front: FrontMatter;
  readonly source: Source;
}

/**
 * Reads the Markdown of a procedure. Never throws: what was understood comes back with the findings, in the order of the file. With
 * an error among them the procedure lacks what was not understood and is not fit to be released.
 */
export function readProcedure(text: string, file: string): Read {
  const source = sourceOf(text, file);
  const { note, findings } = collectFindings(source);
  const problem = outsize(source);
  if (problem) {
    note(problem);
    const procedure = assemble(NO_FRONT_MATTER, NO_FRONT_MATTER.title, [], []);
    return { procedure, findings: findings(), front: NO_FRONT_MATTER, source };
  }
  const root = parseBlocks(source);
  const front = readFront(root, source, note);
  const reading: Reading = { source, values: front.values, note };
  noteHiddenCharacters(reading);
  noteOpenEnds(root, reading);
  const { heading, intro, steps, body } = readBody(root, reading);
  noteNearMisses(root, body, reading);
  checkFormulas(
    steps.flatMap(({ points, facts }) => points.map((draft) => ({ draft, scope: facts.scope ?? 'set' }))),
    reading,
  );
  if (front.title === '') {
    const mend = 'Add a line such as title: Cabin-top lining.';
    note({ rule: 'title-missing', at: 0, message: 'The procedure has no title at the top.', found: '', mend });
  }
  return {
    procedure: assemble(front, heading, intro, finishSteps(steps, reading)),
    findings: findings(),
    front,
    source,
  };
}

function assemble(front: FrontMatter, heading: string, intro: readonly string[], steps: readonly Step[]): Procedure {
  const { id, author, sets, work, readCautions, kit } = front;
  return { id, title: front.title || heading, author, sets, work, readCautions, kit, intro: intro.join('\n\n'), steps };
}

function readFront(root: Root, source: Source, note: Reading['note']): FrontMatter {
  const [first] = root.children;
  if (first?.type === 'yaml') {
    const start = source.text.indexOf('\n') + 1;
    return readFrontMatter(first.value, start, note);
  }
  const isOpen = /^---[ \t]*\n/.test(source.text);
  const mend = 'Begin the file with a line ---, then procedure: and title:, then a line ---.';
  const message = isOpen
    ? 'The lines at the top begin with --- but never end with one.'
    : 'The file does not begin with its front matter.';
  note({
    rule: isOpen ? 'front-matter-open' : 'front-matter-missing',
    at: 0,
    message,
    found: source.text.slice(0, 80).split('\n')[0] ?? '',
    mend,
  });
  return NO_FRONT_MATTER;
}

interface ReadBody {
  readonly heading: string;
  readonly intro: readonly string[];
  readonly steps: readonly StepDraft[];
  readonly body: Body;
}

function readBody(root: Root, reading: Reading): ReadBody {
  const body: Body = { reading, intro: [], boxLines: new Set(), pointLines: new Set(), cautionLines: new Set() };
  const steps: StepDraft[] = [];
  const unique = uniqueIds('step', reading);
  let heading: string | null = null;
  for (const block of root.children) {
    if (block.type === 'yaml') continue;
    if (block.type === 'heading' && block.depth === 2) {
      const step = readStepHeading(block, reading);
      if (step.title !== '') unique(step.id, step.title, step.at);
      steps.push(step);
    } else if (block.type === 'heading' && block.depth === 1) {
      heading = readTitle(block, heading, steps.length, reading);
    } else readBlock(block, steps.at(-1) ?? null, body);
  }
  if (steps.length === 0) {
    const mend = 'Begin each step with a line such as ## Count the kit.';
    reading.note({
      rule: 'no-steps',
      at: reading.source.text.length,
      message: 'The procedure has no steps.',
      found: '',
      mend,
    });
  }
  for (const step of steps) {
    if (step.asked > 0) continue;
    const mend = 'Add a point such as - [ ] Sleeves lie flat, or take the ## away.';
    reading.note({
      rule: 'step-without-point',
      at: step.at,
      message: 'This step has no point, so nothing would be recorded.',
      found: step.title,
      mend,
    });
  }
  return { heading: heading ?? '', intro: body.intro, steps, body };
}

function readStepHeading(block: Heading, reading: Reading): StepDraft {
  const { source } = reading;
  const from = block.children[0] ? startOf(block.children[0]) : endOf(block);
  const to = block.children[0] ? endOf(block.children.at(-1) ?? block) : endOf(block);
  const { passage, pin } = takePin(passageOf(source, from, to), reading);
  const title = plainText(insertValues(passage, reading).text);
  if (title === '') {
    reading.note({
      rule: 'step-empty',
      at: startOf(block),
      message: 'This step has no words.',
      found: '##',
      mend: 'Say what is done in it, such as ## Count the kit.',
    });
  }
  if (source.text.charAt(startOf(block)) !== '#') {
    const mend = 'Write ## before the words if it is a step, or leave an empty line above the line of hyphens.';
    reading.note({
      rule: 'step-underlined',
      at: startOf(block),
      message: 'The line of hyphens below makes these words a step.',
      found: title,
      mend,
    });
  }
  return emptyStep(pin ?? slug(title), title, placeOf(source, startOf(block)).line, from);
}

/** The first level-1 heading is the title as printed; any further one would end a step without saying so. */
function readTitle(block: Heading, known: string | null, steps: number, reading: Reading): string {
  const { source } = reading;
  const title = plainText(
    insertValues(passageOf(source, startOf(block), endOf(block)), reading).text.replace(/^#\s*/, ''),
  );
  if (known === null && steps === 0) return title;
  const mend = 'Write ## for a step or ### for a heading inside one; one file is one procedure.';
  const message = 'A heading with one # is the title, and there is only one, above the first step.';
  reading.note({ rule: 'title-twice', at: startOf(block), message, found: title, mend });
  return known ?? title;
}

/** A fence or a comment that is never closed swallows every point below it. */
function noteOpenEnds(node: Nodes, reading: Reading): void {
  if (node.type === 'code' && isOpenFence(node, reading.source)) {
    const mend = 'Close it with a line of the same marks.';
    reading.note({
      rule: 'fence-open',
      at: startOf(node),
      message: 'This block of code is never closed, so all that follows belongs to it.',
      found: node.value.slice(0, 40),
      mend,
    });
  }
  if (node.type === 'html' && isOpenComment(node)) {
    reading.note({
      rule: 'comment-open',
      at: startOf(node),
      message: 'This comment is never closed, so what follows belongs to it.',
      found: node.value.slice(0, 40),
      mend: 'Close it with -->.',
    });
  }
  if ('children' in node) for (const child of node.children) noteOpenEnds(child, reading);
}

function isOpenFence(node: Code, source: Source): boolean {
  if (!isFenced(node)) return false;
  const lines = source.text.slice(startOf(node), endOf(node)).split('\n');
  return lines.length < 2 || !/^[\s>]*(?:`{3,}|~{3,})[ \t]*$/.test(lines.at(-1) ?? '');
}

const isOpenComment = (node: Html): boolean => htmlComments(node.value).some(({ is }) => is === 'open');

function finishSteps(drafts: readonly StepDraft[], reading: Reading): readonly Step[] {
  const names = drafts.map(({ id, title }, index) => ({ number: index + 1, id: id as StepId, title }));
  return drafts.map(({ id, title, line, facts, cautions, pictures, prose, points }, index) => ({
    number: index + 1,
    id: id as StepId,
    title,
    line,
    facts: {
      scope: facts.scope ?? 'set',
      allowedMinutes: facts.allowedMinutes,
      seams: facts.seams,
      ifOut: facts.ifOut && readIfOut(facts.ifOut, index + 1, names, reading),
      needsSkill: facts.needsSkill,
      cannotBeUndone: facts.cannotBeUndone,
    },
    cautions,
    pictures,
    prose: prose.filter((text) => text.trim() !== '').join('\n\n'),
    points: points.map(({ point }) => point),
  }));
}
