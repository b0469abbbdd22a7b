import Fraction from 'fraction.js';
import { type Result, refuse } from '../../base/result.ts';
import { measureNamed } from '../../drawing/measure-named.ts';
import type { Limit } from '../../measure/limit.ts';
import { convert } from '../../measure/unit.ts';
import { nearestFirst } from '../nearest-first.ts';
import type { Point, Step } from '../procedure.ts';
import { wayOut } from '../way-out.ts';
import type { Proof } from './proof.ts';
import { both, COMMON_PRACTICE, type Rule } from './rule.ts';
import { isMeasurable, type ShownDrawing, unmeasured } from './shown-drawing.ts';

const LINES =
  '<line id="D1" class="mark" y1="10" x2="90" y2="10"/>\n<line id="D2" class="mark" y1="46" x2="90" y2="46"/>';
const SPACED = (limit: string): string =>
  `![The lines](../media/panel.svg#D1)\n\n- [ ] ¦Spacing of the lines, three places ____ ____ ____ mm (${limit})`;

/** Rules on limits that say what they measure in the drawing. */
export const DRAWN_LENGTHS: readonly Rule[] = [
  {
    name: 'measure-missing',
    from: ['L15'],
    severity: 'error',
    why: 'A limit that names a length of the drawing is held against it; a name without a length is a slip in one of the two.',
    source: COMMON_PRACTICE,
    bad: SPACED('36 ±2 of D1–D3'),
    good: SPACED('36 ±2 of D1–D2').replace('¦', ''),
    drawing: both(LINES),
    check: (proof, say) => {
      const told = new Set<string>();
      for (const { name, measured, at } of measures(proof)) {
        if (measured.ok) continue;
        // Of a drawing that cannot be measured once is enough.
        if (measured.error.rule === NOT_TO_SCALE && told.has(measured.error.message)) continue;
        told.add(measured.error.message);
        const { message, mend } = wayOut(measured.error.message);
        say({ at, found: name, message, mend: mend ?? MEND.nominal });
      }
    },
  },
  {
    name: 'nominal-unlike-drawing',
    from: ['L42'],
    severity: 'error',
    why: 'One number is sewn to and the other was cut to: one of them was mended alone.',
    source: 'arithmetic: the length in the drawing, rounded as the limit is written',
    bad: SPACED('35 ±2 of D1–D2'),
    good: SPACED('36 ±2 of D1–D2').replace('¦', ''),
    drawing: both(LINES),
    check: (proof, say) => {
      for (const { name, limit, measured, shown, at } of measures(proof)) {
        if (!measured.ok || shown === undefined) continue;
        const perUnit = convert(new Fraction(1), limit.unit, 'mm').valueOf();
        const off = measured.value.map((value) => value / perUnit).find((value) => !agrees(value, limit));
        if (off === undefined) continue;
        const { unit } = limit;
        const message = `The limit says ${limit.text}, and ${name} in ${shown.address} is ${shortly(off)} ${unit}.`;
        say({ at, found: limit.text, message, mend: MEND[limit.nominal === null ? 'range' : 'nominal'] });
      }
    },
  },
];

const MEND = {
  nominal: 'Correct the number or the drawing, or name the line that is meant.',
  range: 'Correct the bounds or the drawing, or name the line that is meant.',
};

interface MeasureOf {
  readonly name: string;
  readonly limit: Limit;
  readonly measured: Result<readonly number[]>;
  /** The drawing it was measured in. */
  readonly shown: ShownDrawing | undefined;
  readonly at: number;
}

/** Every length that a limit names, measured: in the step's own drawing, or else in the first of the procedure that has it. */
function* measures({ procedure, drawings, at }: Proof): Generator<MeasureOf> {
  if (drawings === null) return;
  for (const step of procedure.steps)
    for (const point of step.points)
      for (const { name, limit } of namedBy(point))
        yield { name, limit, at: at(point.line), ...measureIn(nearestFirst(drawings, step), name, step) };
}

const namedBy = (point: Point): readonly { readonly name: string; readonly limit: Limit }[] =>
  point.kind === 'reading' && point.limit !== null && point.measures
    ? point.measures.map((name) => ({ name, limit: point.limit as Limit }))
    : [];

function measureIn(
  drawings: readonly ShownDrawing[],
  name: string,
  { title }: Step,
): Pick<MeasureOf, 'measured' | 'shown'> {
  let first: Result<readonly number[]> | undefined;
  for (const shown of drawings) {
    const measured = isMeasurable(shown) ? measureNamed(shown.read.drawing, name) : notToScale(shown);
    if (measured.ok) return { measured, shown };
    first ??= measured;
  }
  return { measured: first ?? noDrawing(title), shown: undefined };
}

const NOT_TO_SCALE = 'drawing-units';
const notToScale = (shown: ShownDrawing): Result<never> =>
  refuse(NOT_TO_SCALE, unmeasured(shown, 'leave out of and what follows'));
const noDrawing = (title: string): Result<never> =>
  refuse(
    'part-missing',
    `No drawing is shown in which this could be measured; show one at ${title}, or leave out of and what follows.`,
  );

/** Whether a length in the drawing, rounded as the nominal is written, is the nominal; without a nominal, whether it is inside. */
function agrees(value: number, { text, nominal, low, high }: Limit): boolean {
  if (nominal === null) return value >= Number(low ?? value) - SLIGHT && value <= Number(high ?? value) + SLIGHT;
  const tolerance = Math.max(Number(high) - Number(nominal), Number(nominal) - Number(low));
  // Who allows 0.2 does not mean half a millimetre, though the nominal has no decimals.
  const rounding = Math.min(lastDigit(text) / 2, tolerance > 0 ? tolerance : Number.POSITIVE_INFINITY);
  return Math.abs(value - Number(nominal)) <= rounding + SLIGHT;
}

/** The smallest step that a nominal is written in: 0.1 of `36.0 ±2`, a sixteenth of `36 5/16 ±1/16`. */
function lastDigit(text: string): number {
  const [nominal = ''] = text.normalize('NFKD').split(/±|\+|\s[-−]/);
  const parts = /[/⁄]\s*(\d+)/.exec(nominal)?.[1];
  const decimals = /[.,](\d+)\D*$/.exec(nominal)?.[1] ?? '';
  return parts === undefined ? 10 ** -decimals.length : 1 / Number(parts);
}

/** What is lost in reckoning. */
const SLIGHT = 1e-6;

const shortly = (value: number): number => Number(value.toFixed(2));
