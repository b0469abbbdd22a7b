import type { Step } from '../procedure.ts';
import type { Proof } from './proof.ts';
import { COMMON_PRACTICE, type Rule } from './rule.ts';

const OTHERWHERE = `${COMMON_PRACTICE}; a warning and no error here, as the machine may be set up by another procedure`;

/** Rules on what stands before the first stitch. */
export const SEWING: readonly Rule[] = [
  {
    name: 'machine-set-before-sewing',
    from: ['L35'],
    severity: 'warning',
    why: 'A wrong needle, thread or stitch length is found on the offcut, or on the work for ever.',
    source: OTHERWHERE,
    bad: '## ¦Sew the strap\n\n- Seams: ST, stitch 301 at 4.0 mm\n\n- [ ] Strap lies flat',
    good: '## Set the machine\n\n- [ ] Needle fitted is new, size 110\n- [ ] Thread fitted is Tex 70\n- [ ] Stitches over 100 mm ____ st/100mm (25 ±2)\n\n## Sew the strap\n\n- Seams: ST, stitch 301 at 4.0 mm\n\n- [ ] Strap lies flat',
    check: (proof, say) => {
      const { words, procedure, at } = proof;
      const first = firstSewn(proof);
      if (first === undefined) return;
      const before = procedure.steps.slice(0, first.number);
      const asked = [
        procedure.intro,
        ...before.flatMap((step) => [step.prose, ...step.points.map(({ text }) => text)]),
      ].join('\n');
      const counted = before.some(({ points }) => points.some((point) => 'unit' in point && STITCHES.has(point.unit)));
      const lacks = [
        ...(words.needle.test(asked) ? [] : ['needle']),
        ...(words.thread.test(asked) ? [] : ['thread']),
        ...(counted || words.stitch.test(asked) ? [] : ['stitch length']),
      ];
      if (lacks.length === 0) return;
      const message = `Up to the first seam nothing is said of ${lacks.join(', ')}.`;
      say({
        at: at(first.line),
        found: first.title,
        message,
        mend: 'Add a step before it in which they are set and tried on an offcut.',
      });
    },
  },
  {
    name: 'offcut-before-vinyl',
    from: ['L35'],
    severity: 'warning',
    why: 'In vinyl every needle hole stays: the stitch is tried where it does not matter.',
    source: OTHERWHERE,
    bad: '## ¦Sew the vinyl strap\n\n- Seams: ST, stitch 301 at 4.0 mm\n\n- [ ] Strap lies flat',
    good: '## Sew two layers of offcut\n\n- [ ] Seam of the offcut lies flat\n\n## Sew the vinyl strap\n\n- Seams: ST, stitch 301 at 4.0 mm\n\n- [ ] Strap lies flat',
    check: (proof, say) => {
      const { words, procedure, at } = proof;
      const first = firstSewn(proof);
      if (first === undefined || !(words.vinyl.test(procedure.intro) || words.vinyl.test(wordsOfStep(first)))) return;
      if (procedure.steps.slice(0, first.number).some((step) => words.offcut.test(wordsOfStep(step)))) return;
      say({
        at: at(first.line),
        found: first.title,
        message: 'Vinyl is sewn here without a test on an offcut before.',
        mend: 'Add a step such as ## Sew the offcut test before it.',
      });
    },
  },
];

const STITCHES: ReadonlySet<string> = new Set(['st/100mm', 'st/25mm', 'spi']);

const firstSewn = ({ procedure }: Proof): Step | undefined => procedure.steps.find(({ facts }) => facts.seams?.stitch);

const wordsOfStep = ({ title, prose, points }: Step): string =>
  [title, prose, ...points.map(({ text }) => text)].join('\n');
