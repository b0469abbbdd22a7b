import type { Finding } from '../base/finding.ts';
import { limitChange } from '../measure/limit-change.ts';
import { limitWords } from '../measure/limit-words.ts';
import { formulaWords } from './formula-words.ts';
import { slug } from './ids.ts';
import { limitOf } from './point-limit.ts';
import type { Point, Procedure, Step } from './procedure.ts';

/**
 * Where a sheet, the same procedure in another language, does not ask what its main text asks. Both must have the same steps, points,
 * limits, numbers, units, options, cautions, pictures and facts at the same places; only words differ. Each finding stands at the
 * sheet's line and says what the main text has.
 */
export function compareSheet(main: Procedure, sheet: Procedure, file: string): readonly Finding[] {
  const findings: Finding[] = [];
  const differ = (line: number, what: string, expected: string, found: string): void =>
    void findings.push({
      file,
      line,
      column: 1,
      severity: 'error',
      rule: 'sheet-differs',
      message: `${what}: the main text has ${expected || 'none'} here, and this sheet ${found || 'none'}.`,
      found,
      mend: `Write ${expected || 'none'}, as the main text has it, or change the main text first.`,
    });
  const same = (line: number, what: string, expected: string, found: string): void => {
    if (expected === found) return;
    const [gone, more] = what.toLowerCase().includes('numbers') ? onlyIn(expected, found) : [expected, found];
    differ(line, what, gone, more);
  };
  const pins = (there: Pinnable, main: Pinnable, what: string): void => {
    if (isPinned(there) && there.id !== main.id) differ(there.line, what, main.id, there.id);
  };
  for (const [what, of] of WHOLE) same(1, what, of(main), of(sheet));
  same(1, 'Steps', String(main.steps.length), String(sheet.steps.length));
  for (const [index, step] of main.steps.entries()) {
    const other = sheet.steps[index];
    if (!other) break;
    for (const [what, of] of OF_STEP)
      same(other.line, `Step ${step.number}, ${what}`, of(step, main), of(other, sheet));
    pins(other, step, `Step ${step.number}, id`);
    for (const [at, caution] of step.cautions.entries()) {
      const there = other.cautions[at];
      if (there)
        same(there.line, `Step ${step.number}, numbers of a caution`, numbers(caution.text), numbers(there.text));
    }
    for (const [at, point] of step.points.entries()) {
      const there = other.points[at];
      if (!there) break;
      pins(there, point, `Step ${step.number}, id of point ${at + 1}`);
      for (const [what, of] of OF_POINT)
        same(there.line, `Step ${step.number}, ${what} of point ${at + 1}`, of(point), of(there));
      if (limitChange(limitOf(point), limitOf(there)) !== null)
        differ(there.line, `Step ${step.number}, limit of point ${at + 1}`, limitText(point), limitText(there));
    }
  }
  return findings.sort((a, b) => a.line - b.line);
}

/** The main text's procedure with the sheet's words: what is asked, its names and its limits are those of the main text. */
export function inLanguage(main: Procedure, sheet: Procedure): Procedure {
  return {
    ...main,
    title: sheet.title,
    intro: sheet.intro,
    kit: main.kit.map((piece) => ({
      ...piece,
      words: sheet.kit.find(({ id }) => id === piece.id)?.words ?? piece.words,
    })),
    steps: main.steps.map((step, index) => stepIn(step, sheet.steps[index])),
  };
}

function stepIn(step: Step, words: Step | undefined): Step {
  if (!words) return step;
  const { ifOut, seams } = step.facts;
  return {
    ...step,
    title: words.title,
    prose: words.prose,
    facts: {
      ...step.facts,
      seams: seams && { ...seams, text: words.facts.seams?.text ?? seams.text },
      ifOut: ifOut && { ...ifOut, text: words.facts.ifOut?.text ?? ifOut.text },
    },
    cautions: step.cautions.map((each, at) => ({ ...each, text: words.cautions[at]?.text ?? each.text })),
    pictures: step.pictures.map((each, at) => ({ ...each, alt: words.pictures[at]?.alt ?? each.alt })),
    points: step.points.map((point, at) => pointIn(point, words.points[at])),
  };
}

function pointIn(point: Point, words: Point | undefined): Point {
  if (!words) return point;
  if (point.kind !== 'choice' || words.kind !== 'choice') return { ...point, text: words.text };
  const options = point.options.map((option, at) => ({ ...option, text: words.options[at]?.text ?? option.text }));
  return { ...point, text: words.text, options };
}

type Told<T> = readonly (readonly [string, (of: T, whole: Procedure) => string])[];

const WHOLE: readonly (readonly [string, (of: Procedure) => string])[] = [
  ['Name of the procedure', ({ id }) => id],
  ['Sets', ({ sets }) => String(sets)],
  ['Order of work', ({ work }) => work],
  ['How often cautions are read', ({ readCautions }) => readCautions],
  ['Kit', ({ kit }) => kit.map(({ id, count, side }) => [id, `× ${count}`, side ?? ''].join(' ').trim()).join(', ')],
  ['Numbers of the introduction', ({ intro }) => numbers(intro)],
];

const OF_STEP: Told<Step> = [
  ['scope', ({ facts }) => (facts.scope === 'bundle' ? 'For the whole bundle' : 'For each set')],
  ['allowed time', ({ facts }) => (facts.allowedMinutes === null ? '' : `${facts.allowedMinutes} min`)],
  [
    'seams',
    ({ facts: { seams } }) =>
      seams
        ? [
            ...seams.ids,
            seams.stitch ?? '',
            seams.stitchLength ?? '',
            seams.thickness ?? '',
            seams.visible ? 'visible' : '',
          ]
            .join(' ')
            .trim()
        : '',
  ],
  [
    'joined edges',
    ({ facts: { seams } }) =>
      [...(seams?.joins ?? []).map((join) => join.join(' to ')), seams?.ease === undefined ? '' : `ease ${seams.ease}`]
        .filter((words) => words !== '')
        .join(', '),
  ],
  ['cannot be undone', ({ facts }) => (facts.cannotBeUndone ? 'Cannot be undone' : '')],
  ['skill needed', ({ facts }) => facts.needsSkill ?? ''],
  ['way out of a limit', ({ facts: { ifOut } }, whole) => (ifOut ? backTo(ifOut.backTo, whole) : '')],
  ['numbers of the way out', ({ facts: { ifOut } }) => (ifOut?.backTo === null ? numbers(ifOut.text) : '')],
  ['cautions', ({ cautions }) => cautions.map(({ word }) => word).join(', ')],
  ['pictures', ({ pictures }) => pictures.map(({ address, bringOut }) => [address, ...bringOut].join(' ')).join(', ')],
  ['points', ({ points }) => String(points.length)],
  ['numbers of the title', ({ title }) => numbers(title)],
  ['numbers of the words', ({ prose }) => numbers(prose)],
];

const OF_POINT: readonly (readonly [string, (of: Point) => string])[] = [
  ['kind', ({ kind }) => kind],
  ['unit', (of) => ('unit' in of ? of.unit : '')],
  ['places', (of) => ('places' in of ? String(of.places) : '')],
  ['name', (of) => ('name' in of ? (of.name ?? '') : '')],
  ['lengths of the drawing', (of) => ('measures' in of ? (of.measures ?? []).join(', ') : '')],
  ['formula', (of) => (of.kind === 'computed' ? formulaWords(of.formula, (name) => name) : '')],
  [
    'acceptable options',
    (of) =>
      of.kind === 'choice'
        ? of.options.map(({ acceptable }, at) => `${at + 1} ${acceptable ? 'yes' : 'no'}`).join(', ')
        : '',
  ],
  ['numbers', ({ text }) => numbers(text)],
];

type Pinnable = Step | Point;

/** An id that its words would not make. */
const isPinned = (of: Pinnable): boolean => of.id !== slug('title' in of ? of.title : of.text);

/** Where work goes back to, by the step's place: its words are another language's. */
function backTo(step: string | null, { steps }: Procedure): string {
  const at = steps.findIndex(({ id }) => id === step);
  return at < 0 ? 'If out:' : `back to step ${at + 1}`;
}

/** Of two lists of numbers, what the other has not. */
function onlyIn(a: string, b: string): readonly [string, string] {
  const [left, right] = [a.split(' '), b.split(' ')];
  for (const number of [...left]) {
    const at = right.indexOf(number);
    if (at < 0) continue;
    right.splice(at, 1);
    left.splice(left.indexOf(number), 1);
  }
  return [left.join(' '), right.join(' ')];
}

const limitText = (point: Point): string => {
  const limit = limitOf(point);
  return limit ? limitWords(limit) : '';
};

/** The numbers of a text in rising order, a comma read as the point that it is in other languages. */
const numbers = (text: string): string =>
  (text.match(/\d+(?:[.,]\d+)?/g) ?? [])
    .map((number) => String(Number(number.replace(',', '.'))))
    .sort((a, b) => Number(a) - Number(b))
    .join(' ');
