import { columns } from '../base/columns.ts';
import { oneLine, wrap } from '../base/text.ts';
import { isAlone, levels, levelWords } from '../bundle/skill.ts';
import { aloneAt, besideAt, type Doing, nextAt, type Operation } from './skill-matrix.ts';
import { table } from './table.ts';

/**
 * The matrix for people, at most `width` columns wide: a table where it fits whole, else a block for each operation; then what the
 * levels mean, which operations hang on one hand or none, and who could be trained next. `today` is an RFC 3339 full-date.
 */
export function skillReport(operations: readonly Operation[], today: string, width: number): readonly string[] {
  if (operations.length === 0)
    return wrap(
      'No procedure in use asks for a skill, and no level is entered: write `- Needs skill: WORDS` under a step, and enter levels with `walkfoot hand skill`.',
      width,
    );
  const whole = matrix(operations);
  const fits = operations.length > 1 && whole.every((line) => columns(line) <= width);
  const shown = fits ? [...whole, '', ...training(operations, width)] : blocks(operations, width);
  return [...shown, ...remarks(operations, today, width), '', ...wrap(LEGEND, width)];
}

const LEGEND = `Levels: ${levels.map((level) => `${level} ${levelWords[level]}`).join(', ')}; - nobody entered one, which counts as 0. From 3 on a hand sews it alone; below 3 with somebody beside. The day is the last on which they did it here.`;

/** A hand in each row, an operation in each column: `3 2026-11-25`. */
function matrix(operations: readonly Operation[]): readonly string[] {
  const shape = ['', ...operations.map(({ skill }) => oneLine(skill))].map(
    (name) => ({ name, align: 'left' }) as const,
  );
  const hands = operations[0]?.hands ?? [];
  const rows = hands.map(({ name }, at) => [name, ...operations.map(({ hands }) => cell(hands[at]))]);
  return table(shape, rows, Number.MAX_SAFE_INTEGER);
}

const cell = (doing: Doing | undefined): string =>
  doing ? [doing.isEntered ? String(doing.level) : '-', doing.lastDay ?? ''].join(' ').trim() : '';

function blocks(operations: readonly Operation[], width: number): readonly string[] {
  return operations.flatMap((operation, at) => [
    ...(at === 0 ? [] : ['']),
    ...wrap(oneLine([operation.skill, stepWords(operation)].filter((words) => words !== '').join(': ')), width),
    ...hanging('  alone:        ', persons(aloneAt(operation)), width),
    ...hanging('  with another: ', persons(besideAt(operation)), width),
    ...hanging('  train next:   ', nextWords(operation), width),
  ]);
}

/** `LIN-2207 steps 6, 7`. */
function stepWords({ steps }: Operation): string {
  const procedures = [...new Set(steps.map(({ procedure }) => procedure))];
  return procedures
    .map((each) => {
      const numbers = steps.filter(({ procedure }) => procedure === each).map(({ step }) => step);
      return `${each} step${numbers.length > 1 ? 's' : ''} ${numbers.join(', ')}`;
    })
    .join('; ');
}

function persons(doings: readonly Doing[]): string {
  const known = doings.filter(({ isEntered }) => isEntered).toSorted((a, b) => b.level - a.level);
  const others = doings.filter(({ isEntered }) => !isEntered);
  const words = [...known, ...others].map((doing) => {
    const { name, level, isEntered, lastDay } = doing;
    return `${name} ${isEntered ? level : '-'}${lastDay === null ? '' : ` (${lastDay})`}`;
  });
  return words.length === 0 ? 'nobody' : words.join(', ');
}

function nextWords(operation: Operation): string {
  const learners = nextAt(operation).map(({ name }) => name);
  if (learners.length === 0) return 'nobody is one level short of alone';
  const teachers = aloneAt(operation).filter(({ level }) => level === 4);
  const by = teachers.length === 0 ? '' : `, whom ${teachers.map(({ name }) => name).join(' or ')} can teach`;
  return `${learners.join(', ')}${by}`;
}

function training(operations: readonly Operation[], width: number): readonly string[] {
  const short = operations.filter((operation) => nextAt(operation).length > 0);
  return short.length === 0
    ? wrap('Could be trained next: nobody is one level short of alone in anything.', width)
    : [
        'Could be trained next, one level short of alone:',
        ...short.flatMap((operation) => hanging(`  ${oneLine(operation.skill)}: `, nextWords(operation), width)),
      ];
}

/** What a supervisor should see coming: an operation that hangs on one hand or none, and who has not done one for long. */
function remarks(operations: readonly Operation[], today: string, width: number): readonly string[] {
  const before = monthsBefore(today, RENEWED_AFTER);
  const lines = operations.flatMap((operation) => {
    const { skill, hands } = operation;
    const able = aloneAt(operation);
    const [only] = able;
    return [
      ...(only === undefined ? [`Nobody does ${skill} alone, so nobody can stand by either.`] : []),
      ...(able.length === 1 && only ? [`Only ${only.name} does ${skill} alone.`] : []),
      ...hands
        .filter(({ level, lastDay }) => isAlone(level) && lastDay !== null && lastDay < before)
        .map(({ name, lastDay }) => `${name} did ${skill} last on ${lastDay}: look whether the level still holds.`),
    ];
  });
  return lines.length === 0 ? [] : ['', ...lines.flatMap((line) => hanging('! ', line, width))];
}

/** Months without doing an operation after which its level is looked at again: common practice, no source. It bars nobody. */
const RENEWED_AFTER = 6;

/** The same day so many months before; a day that month does not have stands behind all it has, which is all a comparison needs. */
function monthsBefore(day: string, months: number): string {
  const [year = 0, month = 1] = day.split('-').map(Number);
  const all = year * 12 + (month - 1) - months;
  return `${Math.floor(all / 12)}-${String((all % 12) + 1).padStart(2, '0')}-${day.slice(8)}`;
}

/** Words behind what leads to them, going on below themselves; below the lead where it takes more than half of the width. */
function hanging(lead: string, words: string, width: number): readonly string[] {
  const indent = columns(lead);
  if (indent * 2 > width) return [...wrap(lead, width), ...hanging('    ', words, Math.max(8, width))];
  return wrap(oneLine(words), width - indent).map((line, at) => (at === 0 ? lead : ' '.repeat(indent)) + line);
}
