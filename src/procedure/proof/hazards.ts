import type { Step } from '../procedure.ts';
import type { Proof } from './proof.ts';
import type { Rule } from './rule.ts';
import hazards from './words/hazards.json' with { type: 'json' };
import type { Hazard } from './words.ts';

/** What the trade knows to hurt people, against the cautions of the text. Gloves are left alone: a competent person decides about them for each machine. */
export const HAZARDS: readonly Rule[] = [
  {
    name: 'hazard-without-caution',
    from: [],
    severity: 'warning',
    why: 'Needles, blades, the moving head, vacuum, hot tools and solvents hurt people. Each step that has one has its own caution, as whoever stands there may have read the last one an hour ago. Only the needle at the seam is named once, before the first seam: it is the same in every one, and a caution at each would soon be passed over. Where cautions are read every time, every seam has it, too.',
    source: `the table of hazards in procedures/README.md; signal words are proposals for a competent person to review. ${hazards
      .map(({ row, source }) => `Row ${row}: ${source}`)
      .join('. ')}`,
    bad: '## Open the holder\n\n¦Pull the blade with its tool.\n\n- [ ] Blade changed',
    good: '## Open the holder\n\n> **WARNING** Blade. A loose blade cuts to the bone. Lock the cutter off before you touch it.\n\nPull the blade with its tool.\n\n- [ ] Blade changed',
    check: (proof, say) => {
      const { steps, readCautions } = proof.procedure;
      for (const hazard of proof.words.hazards) {
        if (!hazard.sewing && !hazard.works.mayBeIn(proof.known)) continue;
        const once = hazard.warned === 'once' && readCautions !== 'every time';
        for (const step of steps) {
          const named = isNamed(step, hazard);
          const bites = named ? undefined : biteOf(step, hazard, proof);
          if (bites !== undefined) {
            const row = `row ${hazard.row}, ${hazard.hazard}`;
            say({
              at: bites,
              found: row,
              message: `This step has a hazard (${row}), and no caution ${once ? 'up to here' : 'of this step'} names it.`,
              mend: `Add a caution above its points, such as > **${hazard.word}**, with the hazard, what it does and how to avoid it.`,
            });
          }
          if (once && (named || bites !== undefined)) break;
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
  const where = sentences.find((each) => each.step === step && each.of !== 'caution' && works.test(each.text));
  if (where !== undefined) return where.at(where.text);
  // Tables and code are no sentences, and yet are read.
  return works.test(step.prose) ? at(step.line) : undefined;
}
