import type { Proof } from './proof.ts';
import type { Rule } from './rule.ts';

const STE = 'ASD-STE100, rules 5.1 to 5.5, read in a copy of the rules';

/** Rules on what a step asks to be done. */
export const ACTIONS: readonly Rule[] = [
  {
    name: 'step-begins-with-verb',
    from: ['L01'],
    severity: 'warning',
    why: 'A step that begins with what is done can be acted on at a glance; one that begins with a thing must first be read to its end.',
    source: STE,
    bad: '## ¦Sleeves to their lines\n\n- [ ] Sleeves lie flat',
    good: '## Sew the sleeves to their lines\n\n- [ ] Sleeves lie flat',
    check: ({ sentences, words }, say) => {
      for (const { of, first, text, at } of sentences) {
        if (of !== 'title' || !first || words.verbs.has(firstWord(text)) || words.negatives.test(text)) continue;
        const mend = 'Begin with what is done, such as Sew, Measure or Lay.';
        say({ at: at(text), found: text, message: 'This step does not begin with a verb that says what to do.', mend });
      }
    },
  },
  {
    name: 'one-action',
    from: ['L02'],
    severity: 'warning',
    why: 'Of two actions in one step the second is the one that is forgotten, most of all after an interruption.',
    source: STE,
    bad: '## ¦Hem the sleeves and press the folds\n\n- [ ] Sleeves lie flat',
    good: '## Hem the sleeves\n\n- [ ] Sleeves lie flat\n\n## Press the folds\n\n- [ ] Folds lie flat',
    check: (proof, say) => {
      for (const { of, text, at } of proof.sentences) {
        if (of !== 'title' || actions(text, proof) < 2) continue;
        say({
          at: at(text),
          found: text,
          message: 'This step asks for more than one action.',
          mend: 'Make a step of each, or name the one thing they do together.',
        });
      }
    },
  },
  {
    name: 'positive-action',
    from: ['L19'],
    severity: 'hint',
    why: 'Whoever is only told what not to do still has to find out what to do.',
    source: 'common practice, no source',
    bad: '¦Do not pull the vinyl.\n\n- [ ] Sleeves lie flat',
    good: 'Do not pull the vinyl. Feed it by hand.\n\n- [ ] Sleeves lie flat',
    check: ({ sentences, words }, say) => {
      for (const { of, first, passage, at } of sentences) {
        if (!first || of === 'title' || of === 'intro') continue;
        const negative = passage.sentences.find(({ text }) => words.negatives.test(text));
        if (negative === undefined || passage.sentences.some(({ text }) => words.verbs.has(firstWord(text)))) continue;
        say({
          at: of === 'point' ? at(negative.text) : negative.at(negative.text),
          found: negative.text,
          message: 'This says what not to do, and nothing here says what to do instead.',
          mend: 'Add a sentence that says what to do, such as Feed it by hand.',
        });
      }
    },
  },
  {
    name: 'verify-needs-somebody',
    from: ['L26'],
    severity: 'hint',
    why: 'To verify means that somebody else makes sure. A tick by the one who did the work verifies nothing.',
    source: 'DOE-STD-1029-92, read',
    bad: '- [ ] ¦Verify the first row',
    good: '- [ ] **Hold point** first row looked over\n- [ ] First row lies on its line',
    check: ({ sentences, words }, say) => {
      for (const { of, passage, first, text, at } of sentences) {
        if (of !== 'point' || !first || passage.point?.kind === 'hold point' || !words.verify.test(text)) continue;
        say({
          at: at(text),
          found: text,
          message: 'Verifying takes a second person, and this point asks for none.',
          mend: 'Make it a **Hold point**, or say what is seen when it is good.',
        });
      }
    },
  },
];

/** The first word of a sentence in small letters, as the list of verbs has it. */
export function firstWord(text: string): string {
  return /^[\p{L}][\p{L}-]*/u.exec(text)?.[0].toLowerCase() ?? '';
}

function actions(title: string, { words }: Proof): number {
  if (words.together.test(title)) return 1;
  return title.split(words.joins).filter((part) => words.verbs.has(firstWord(part.trim()))).length;
}
