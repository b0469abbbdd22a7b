import { COMMON_PRACTICE, type Rule } from './rule.ts';
import type { WordList } from './words.ts';

/** Rules on the names that a text gives to things. */
export const NAMES: readonly Rule[] = [
  {
    name: 'one-name-for-a-thing',
    from: ['L30'],
    severity: 'warning',
    why: 'Whoever reads two names looks for two things.',
    source:
      'ASD-STE100 (one word, one meaning), read in a copy of the rules; the groups of names common practice, no source',
    bad: 'Fold each sleeve. Lay the ¦listing on its line.',
    good: 'Fold each sleeve. Lay the sleeve on its line.',
    check: ({ sentences, words, known: all }, say) => {
      for (const group of words.oneName) {
        const names = group.filter((name) => name.mayBeIn(all));
        if (names.length < 2) continue;
        let known: WordList | undefined;
        for (const { text, at } of sentences) {
          for (const name of names) {
            const found = name.exec(text)?.[0];
            if (found === undefined || known === name) continue;
            if (known === undefined) {
              known = name;
              continue;
            }
            const mend = 'Choose one of the names and use it everywhere.';
            say({
              at: at(found),
              found,
              message: `“${found}” is a second name for what has been named otherwise above.`,
              mend,
            });
          }
        }
      }
    },
  },
  {
    name: 'abbreviation-unexplained',
    from: ['L31'],
    severity: 'warning',
    why: 'Short forms are known to those who made them.',
    source: COMMON_PRACTICE,
    bad: 'Write the ¦WIP on the ticket.',
    good: 'Write the work in progress (WIP) on the ticket. The WIP is counted again below.',
    check: ({ sentences, words, procedure, source }, say) => {
      const known = new Set([
        ...words.abbreviations,
        ...procedure.kit.map(({ id }) => id),
        ...procedure.steps.flatMap(({ facts, pictures }) => [
          ...(facts.seams?.ids ?? []),
          ...pictures.flatMap(({ bringOut }) => bringOut),
        ]),
      ]);
      for (const { text, of, at } of sentences) {
        if (!/[A-ZÀ-Þ]{2}/.test(text)) continue;
        for (const [found] of text.matchAll(/(?<![\p{L}\p{N}-])\p{Lu}{2,6}(?![\p{L}\p{N}-])/gu)) {
          if (known.has(found) || of === 'title') continue;
          known.add(found);
          if (source.text.includes(`(${found})`) || source.text.includes(`${found} (`)) continue;
          const mend = `Write it out where it comes first, with ${found} in brackets behind it.`;
          say({ at: at(found), found, message: `${found} is not explained anywhere.`, mend });
        }
      }
    },
  },
  {
    name: 'colour-alone',
    from: ['L32'],
    severity: 'warning',
    why: 'One man in twelve does not tell red from green. A second sign is seen by everybody.',
    source: 'WCAG 2.2, success criterion 1.4.1, read in a summary; the share of people from memory',
    bad: 'Wait for the ¦green lamp.',
    good: 'Wait for the green lamp, the lower one.',
    check: ({ sentences, words }, say) => {
      for (const { text, at } of sentences) {
        const found = words.colouredThing.exec(text)?.[0];
        if (found === undefined) continue;
        const mend = 'Add a second sign behind it: where it is, its shape, its label.';
        say({ at: at(found), found, message: 'Only a colour says which one is meant.', mend });
      }
    },
  },
];
