import type { Limit } from '../../measure/limit.ts';
import { canBeOut } from '../point-limit.ts';
import type { Point, Step } from '../procedure.ts';
import type { Proof } from './proof.ts';
import { COMMON_PRACTICE, type Rule } from './rule.ts';

/** Half the width of a limit may be this much of its nominal. */
const WIDEST = 0.2;
/** A number nearer than this to a nominal, but outside the limit, is likely meant to be it. */
const NEAR = 0.1;

/** Rules on readings and their limits. */
export const LIMITS: readonly Rule[] = [
  {
    name: 'limit-without-play',
    from: ['L12'],
    severity: 'warning',
    why: 'Nobody measures a cloth to an exact number: with no tolerance every honest reading is out.',
    source: COMMON_PRACTICE,
    bad: '- [ ] ¦Sleeve bore, laid flat ____ mm (27)',
    good: '- [ ] Sleeve bore, laid flat ____ mm (27 +2/-0)',
    check: (proof, say) => {
      for (const { point, limit, at } of readings(proof)) {
        // A gauge at zero is a state and no size.
        if (limit.low === null || limit.low !== limit.high || Number(limit.low) === 0) continue;
        say({
          at,
          found: limit.text,
          message: `${point.text} has no tolerance.`,
          mend: 'Write how much it may differ, such as 27 ±0.5.',
        });
      }
    },
  },
  {
    name: 'limit-wide',
    from: ['L12'],
    severity: 'warning',
    why: 'A tolerance of more than a fifth of the size is more often a slip of the pen than meant.',
    source: COMMON_PRACTICE,
    bad: '- [ ] ¦Sleeve bore, laid flat ____ mm (27 ±20)',
    good: '- [ ] Sleeve bore, laid flat ____ mm (27 ±2)',
    check: (proof, say) => {
      for (const { limit, at } of readings(proof)) {
        if (limit.low === null || limit.high === null || limit.nominal === null) continue;
        const half = (Number(limit.high) - Number(limit.low)) / 2;
        if (/[°]/.test(limit.unit) || half <= Math.abs(Number(limit.nominal)) * WIDEST) continue;
        const message = 'This tolerance is more than a fifth of the size.';
        say({
          at,
          found: limit.text,
          message,
          mend: 'Look at the number again; if it is meant, silence this rule with the reason.',
        });
      }
    },
  },
  {
    name: 'lengths-in-one-unit',
    from: ['L13'],
    severity: 'error',
    why: 'Whoever reads 12 after a page of millimetres reads 12 mm, also when cm stands behind it.',
    source: COMMON_PRACTICE,
    bad: '- [ ] Sleeve bore, laid flat ____ mm (27 ±1)\n- [ ] ¦Strap, from end to end ____ cm (40 ±1)',
    good: '- [ ] Sleeve bore, laid flat ____ mm (27 ±1)\n- [ ] Strap, from end to end ____ mm (400 ±10)',
    check: ({ procedure, at }, say) => {
      let first: string | undefined;
      for (const point of procedure.steps.flatMap(({ points }) => points)) {
        if (!('unit' in point) || !['mm', 'cm', 'in'].includes(point.unit)) continue;
        first ??= point.unit;
        if (point.unit === first) continue;
        const message = `Lengths were in ${first} before, and this one is in ${point.unit}.`;
        say({ at: at(point.line), found: point.text, message, mend: `Write this one in ${first}, too.` });
      }
    },
  },
  {
    name: 'measured-where',
    from: ['L15'],
    severity: 'warning',
    why: 'Two people who measure in two places get two numbers, and both are right.',
    source: COMMON_PRACTICE,
    bad: '- [ ] ¦Width ____ mm (27 ±2)',
    good: '- [ ] Width at the front edge ____ mm (27 ±2)',
    check: (proof, say) => {
      for (const { point, at } of readings(proof)) {
        if (point.kind !== 'reading' || point.places > 1 || !['mm', 'cm', 'in', 'm'].includes(point.unit)) continue;
        if (/[,(]|\d/.test(point.text) || proof.words.places.test(point.text)) continue;
        const mend = 'Say from where to where, such as Width at the front edge.';
        say({ at, found: point.text, message: 'This does not say where to measure.', mend });
      }
    },
  },
  {
    name: 'places-as-blanks',
    from: ['L15', 'L42'],
    severity: 'warning',
    why: 'The words ask for one number of places and the blanks for another: one of them is wrong.',
    source: COMMON_PRACTICE,
    bad: '- [ ] Seam to the edge, ¦three places ____ ____ mm (12 ±1)',
    good: '- [ ] Seam to the edge, three places ____ ____ ____ mm (12 ±1)',
    check: ({ sentences, words }, say) => {
      for (const { passage, text, at } of sentences) {
        if (passage.point?.kind !== 'reading') continue;
        const found = words.countedPlaces.exec(text);
        const said = words.numbers.get(found?.[1]?.toLowerCase() ?? '');
        if (found === null || said === undefined || said === passage.point.places || passage.point.places % said === 0)
          continue;
        const message = `The words say ${found[0]}, and there are ${passage.point.places} blanks.`;
        say({ at: at(found[0]), found: text, message, mend: 'Make the words and the blanks agree.' });
      }
    },
  },
  {
    name: 'if-out-missing',
    from: ['L16', 'L21', 'L38'],
    severity: 'warning',
    why: 'The program then offers to measure again or to hold, and nothing else. Whoever wrote the limit knows better what to do.',
    source: `${COMMON_PRACTICE}; a warning and no error here, as the program always leaves those two ways`,
    bad: '## ¦Sew the sleeves\n\n- [ ] Sleeve bore, laid flat ____ mm (27 +2/-0)',
    good: '## Sew the sleeves\n\n- If out: hold the set\n\n- [ ] Sleeve bore, laid flat ____ mm (27 +2/-0)',
    check: ({ procedure, at }, say) => {
      for (const { title, line, facts, points } of procedure.steps) {
        if (facts.ifOut !== null || !points.some(canBeOut)) continue;
        const mend =
          'Add a line such as - If out: hold the set, or - If out: back to and the words of an earlier step.';
        say({ at: at(line), found: title, message: 'This step does not say what to do when an answer is out.', mend });
      }
    },
  },
  {
    name: 'stitch-length-and-count',
    from: ['L42'],
    severity: 'warning',
    why: 'The stitch length in the seams and the stitches counted over a length are one number said twice.',
    source: 'arithmetic: 100 mm divided by the stitch length',
    bad: '- Seams: T1, stitch 301 at 5.0 mm\n- [ ] ¦Stitches in row T1 ____ st/100mm (25 ±2)',
    good: '- Seams: T1, stitch 301 at 5.0 mm\n- [ ] Stitches in row T1 ____ st/100mm (20 ±1)',
    check: (proof, say) => {
      for (const { step, limit, at } of readings(proof)) {
        const length = Number(step.facts.seams?.stitchLength ?? 0);
        if (length === 0 || !(limit.unit in STITCHED_MM)) continue;
        const count = (STITCHED_MM[limit.unit] ?? 0) / length;
        if (isInside(count, limit)) continue;
        const message = `At ${length} mm there are ${Number(count.toFixed(1))} stitches, which is outside ${limit.text}.`;
        say({ at, found: limit.text, message, mend: 'Correct the stitch length in Seams: or the limit.' });
      }
    },
  },
  {
    name: 'number-unlike-limit',
    from: ['L42'],
    severity: 'warning',
    why: 'A number in the words that is nearly the one in the limit was mended in one place only.',
    source: COMMON_PRACTICE,
    bad: 'Sew on the line at ¦310 mm.\n\n- [ ] Seam on A to its aft edge ____ mm (312 ±1.5)',
    good: 'Sew on the line at 312 mm.\n\n- [ ] Seam on A to its aft edge ____ mm (312 ±1.5)',
    check: (proof, say) => {
      for (const { step, of, text, at } of proof.sentences) {
        if (step === null || of !== 'words') continue;
        for (const { 0: found, 1: digits = '' } of text.matchAll(/(?<![\d.,×/-])(\d+(?:\.\d+)?) (?:mm|cm)\b/g)) {
          const limits = step.points.flatMap((point) =>
            'limit' in point && point.limit && found.endsWith(` ${point.unit}`) ? point.limit : [],
          );
          const value = Number(digits);
          const like = limits.find((limit) => isNear(value, limit));
          if (like === undefined || limits.some((limit) => isInside(value, limit))) continue;
          const message = `The words say ${found}, and the limit below ${like.text}.`;
          say({
            at: at(found),
            found,
            message,
            mend: 'Write the same number in both, or a value from the top of the file.',
          });
        }
      }
    },
  },
];

const STITCHED_MM: Readonly<Record<string, number>> = { 'st/100mm': 100, 'st/25mm': 25, spi: 25.4 };

interface LimitedReading {
  readonly step: Step;
  readonly point: Point;
  readonly limit: Limit;
  readonly at: number;
}

function* readings({ procedure, at }: Proof): Generator<LimitedReading> {
  for (const step of procedure.steps)
    for (const point of step.points)
      if (point.kind === 'reading' && point.limit) yield { step, point, limit: point.limit, at: at(point.line) };
}

const isInside = (value: number, { low, high }: Limit): boolean =>
  (low === null || value >= Number(low)) && (high === null || value <= Number(high));

const isNear = (value: number, { nominal }: Limit): boolean =>
  nominal !== null && Math.abs(value - Number(nominal)) <= Number(nominal) * NEAR;
