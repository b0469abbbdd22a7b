import type { Step } from '../procedure.ts';
import type { Proof } from './proof.ts';
import type { Rule } from './rule.ts';
import type { Hazard } from './words.ts';

/** What the trade knows to hurt people, against the cautions of the text. Gloves are left alone: a competent person decides about them for each machine. */
export const HAZARDS: readonly Rule[] = [
  {
    name: 'hazard-without-caution',
    from: [],
    severity: 'warning',
    why: 'Needles, blades, the moving head, vacuum, hot tools and solvents hurt people. Each is named where it first bites, or each time when cautions are read every time.',
    source:
      'each hazard with its own rule or guidance, named in the finding; signal words are proposals for a competent person to review',
    bad: '¦Brush the adhesive on both faces.',
    good: '> **WARNING** Adhesive vapour. It makes you dizzy and burns. Open the window and keep flames away.\n\nBrush the adhesive on both faces.',
    check: (proof, say) => {
      const { steps, readCautions } = proof.procedure;
      for (const hazard of proof.words.hazards) {
        if (!hazard.sewing && !hazard.works.mayBeIn(proof.known)) continue;
        for (const step of steps) {
          const named = isNamed(step, hazard);
          const bites = biteOf(step, hazard, proof);
          if (named && readCautions !== 'every time') break;
          if (named || bites === undefined) continue;
          say({
            at: bites,
            found: hazard.hazard,
            message: `This step has the hazard “${hazard.hazard}”, and no caution names it up to here (${hazard.source}).`,
            mend: `Add a caution above the points, such as > **${hazard.word}**, with the hazard, what it does and how to avoid it.`,
          });
          // Said once, unless each step must have it.
          if (readCautions !== 'every time') break;
        }
      }
    },
  },
];

const isNamed = ({ cautions }: Step, { named }: Hazard): boolean =>
  cautions.some(({ word, text }) => word !== 'NOTICE' && named.test(text));

/** Where a step shows the hazard; `undefined` when it does not. */
function biteOf(step: Step, { works, sewing }: Hazard, { at, sentences }: Proof): number | undefined {
  if (sewing && step.facts.seams?.stitch) return at(step.line);
  const text = `${step.title}\n${step.prose}\n${step.points.map((point) => point.text).join('\n')}`;
  if (!works.test(text)) return undefined;
  const where = sentences.find((each) => each.step === step && each.of !== 'caution' && works.test(each.text));
  return where === undefined ? at(step.line) : where.at(where.text);
}
