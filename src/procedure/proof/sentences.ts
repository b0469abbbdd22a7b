import { COMMON_PRACTICE, type Rule } from './rule.ts';

/** The most words of a sentence, by where it stands. */
const MOST_WORDS = { instruction: 20, note: 25 } as const;
const MOST_LETTERS = 60;

/** Rules on how a sentence is worded. */
export const SENTENCES: readonly Rule[] = [
  {
    name: 'sentence-length',
    from: ['L03'],
    severity: 'warning',
    why: 'At a machine a sentence of more than 20 words (25 in a note) is read twice or not at all.',
    source: 'ASD-STE100, rules 5.1 to 5.5, read in a copy of the rules',
    bad: '¦Lay the sleeve on the pencil line so that its raw edge lies toward the front of the panel and sew it down from one end to the other end.',
    good: 'Lay the sleeve on the pencil line. Let its raw edge lie toward the front. Sew it down from end to end.',
    check: ({ sentences }, say) => {
      for (const { of, text, at } of sentences) {
        const most = of === 'intro' ? MOST_WORDS.note : MOST_WORDS.instruction;
        // Counting is dearer than looking at the length, and most sentences are short.
        if (text.length < most * 2) continue;
        const count = text.split(' ').length;
        if (count <= most) continue;
        const message = `This sentence has ${count} words; ${most} are the most to be read at one go.`;
        say({ at: at(text), found: text, message, mend: 'Make two sentences of it.' });
      }
    },
  },
  {
    name: 'ambiguous-word',
    from: ['L17'],
    severity: 'warning',
    why: 'Two people read such a word in two ways. A number, a place or a thing that is seen is read in one.',
    source:
      'guide to writing building criteria (vague terms, and/or, etc.), read; the list itself common practice, no source',
    bad: 'Lay the sleeve ¦approximately on its line.',
    good: 'Lay the sleeve on its line, within 1 mm.',
    check: ({ sentences, words, known }, say) => {
      if (!words.ambiguous.mayBeIn(known)) return;
      for (const { text, at } of sentences) {
        const found = words.ambiguous.exec(text)?.[0];
        if (found === undefined) continue;
        const message = `“${found}” can be read in more than one way.`;
        say({ at: at(found), found, message, mend: 'Say the number, the place, or what is seen when it is right.' });
      }
    },
  },
  {
    name: 'pronoun-start',
    from: ['L18'],
    severity: 'hint',
    why: 'Whoever comes back to the work at this line does not know what is meant.',
    source: COMMON_PRACTICE,
    bad: '- [ ] ¦It lies on the line',
    good: '- [ ] Sleeve lies on the line',
    check: ({ sentences, words }, say) => {
      for (const { of, first, text, at } of sentences) {
        if (!first || of === 'intro' || !words.pronouns.test(text)) continue;
        say({ at: at(text), found: text, message: 'Nothing before this says what is meant.', mend: 'Name the thing.' });
      }
    },
  },
  {
    name: 'condition-first',
    from: ['L20'],
    severity: 'warning',
    why: 'Whoever reads the action first has done it before the condition comes.',
    source: 'plain-language guide, read in a summary',
    bad: 'Change the bobbin ¦if less than half is left.',
    good: 'If less than half is left, change the bobbin.',
    check: ({ sentences, words }, say) => {
      for (const { of, text, at } of sentences) {
        if (of === 'title' || of === 'intro') continue;
        const found = words.conditions.exec(text);
        if (!found || found.index === 0) continue;
        const mend = 'Begin the sentence with the condition: If …, do this.';
        say({ at: at(found[0]), found: text, message: 'The condition comes after the action.', mend });
      }
    },
  },
  {
    name: 'line-length',
    from: ['L44'],
    severity: 'hint',
    why: 'At 60 columns, and on a screen read from a metre away, a longer line breaks in two.',
    source: 'calculated from 20 minutes of arc (NUREG-0700, read), with an assumed height of rows',
    bad: '- [ ] ¦Every one of the four sleeves of this lining lies flat on its own pencil line',
    good: '- [ ] All four sleeves lie flat on their pencil lines',
    check: ({ procedure, at }, say) => {
      const look = (text: string, line: number): void => {
        if (text.length <= MOST_LETTERS) return;
        const message = `This line has ${text.length} characters; ${MOST_LETTERS} fit on a small screen.`;
        say({ at: at(line), found: text, message, mend: 'Shorten it, and put what explains it above the points.' });
      };
      for (const { title, line, points } of procedure.steps) {
        look(title, line);
        for (const point of points) look(point.text, point.line);
      }
    },
  },
];
