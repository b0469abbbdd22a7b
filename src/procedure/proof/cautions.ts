import type { Caution, Step } from '../procedure.ts';
import { firstWord } from './actions.ts';
import type { Passage, Proof } from './proof.ts';
import { COMMON_PRACTICE, type Rule } from './rule.ts';

const ANSI =
  'ANSI Z535.6 (injury words, NOTICE, the three parts of a message), read in makers’ manuals that restate it';
const MOST = 3;
const APART = 5;

/** Rules on cautions: their word, their three parts, how many there are. */
export const CAUTIONS: readonly Rule[] = [
  {
    name: 'caution-in-three-parts',
    from: ['L05'],
    severity: 'warning',
    why: 'A caution that lacks the hazard, what it does or how to avoid it warns of nothing that anybody can act on.',
    source: ANSI,
    bad: '> **WARNING** ¦Needle. Take your foot off the treadle before your hand goes near it.',
    good: '> **WARNING** Needle. It can go through your finger. Take your foot off the treadle before your hand goes near it.',
    check: (proof, say) => {
      for (const passage of cautionsOf(proof)) {
        const lacks = lacking(passage, proof);
        if (lacks === undefined) continue;
        const message = `This caution does not say ${lacks}.`;
        const mend =
          'Write three sentences: the hazard by name, what it does, and how to avoid it, beginning with a verb.';
        say({ at: passage.at, found: passage.caution.text, message, mend });
      }
    },
  },
  {
    name: 'list-in-caution',
    from: ['L06'],
    severity: 'warning',
    why: 'What is to be done stands in the step. An action inside a caution is skipped, or done without being recorded.',
    source: 'guide to writing procedures (no action inside a caution), read',
    bad: '¦> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n>\n> 1. Switch the motor off.\n> 2. Change the needle.',
    good: '> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\nSwitch the motor off. Change the needle.',
    check: ({ procedure, source, at }, say) => {
      for (const { caution } of all(procedure.steps)) {
        if (!hasList(source.text, source.lineStarts[caution.line - 1] ?? 0)) continue;
        say({
          at: source.lineStarts[caution.line - 1] ?? at(caution.line),
          found: caution.text,
          message: 'A list stands in this caution.',
          mend: 'Keep one sentence on how to avoid the hazard, and put the actions into the step or its points.',
        });
      }
    },
  },
  {
    name: 'notice-with-injury',
    from: ['L07'],
    severity: 'warning',
    why: 'NOTICE is for spoiled material and has no alert symbol: whoever can be hurt would not be warned.',
    source: ANSI,
    bad: '> **NOTICE** Snips. The points cut your ¦finger. Cut away from that hand.',
    good: '> **CAUTION** Snips. The points cut your finger. Cut away from that hand.',
    check: (proof, say) => {
      for (const { caution, sentences } of cautionsOf(proof)) {
        if (caution.word !== 'NOTICE') continue;
        for (const { text, at } of sentences) {
          const found = proof.words.injuryOnly.exec(text)?.[0];
          if (found === undefined) continue;
          const mend = 'Write CAUTION, WARNING or DANGER where a person can be hurt.';
          say({ at: at(found), found, message: 'NOTICE is for material, and this is about a person.', mend });
          break;
        }
      }
    },
  },
  {
    name: 'injury-not-named',
    from: ['L07'],
    severity: 'warning',
    why: 'DANGER, WARNING and CAUTION spent on spoiled material are soon not read any more.',
    source: ANSI,
    bad: '> **WARNING** ¦Vinyl. A wrong hole shows for ever. Look at the line first.',
    good: '> **NOTICE** Vinyl. A wrong hole shows for ever. Look at the line first.',
    check: (proof, say) => {
      for (const { caution, at } of cautionsOf(proof)) {
        if (caution.word === 'NOTICE' || proof.words.injury.test(caution.text)) continue;
        const message = `${caution.word} is for injury, and no injury is named here.`;
        say({
          at,
          found: caution.text,
          message,
          mend: 'Say what happens to a person, or write NOTICE if only material can be spoiled.',
        });
      }
    },
  },
  {
    name: 'danger-with-reason',
    from: ['L08'],
    severity: 'warning',
    why: 'DANGER is for death or serious injury that will happen. Having to say why keeps it rare.',
    source: 'our own rule; the meaning of the word: ANSI Z535.6, read in makers’ manuals that restate it',
    bad: '> **DANGER** ¦Fire. The vapour explodes and kills. Keep every flame out of the booth.',
    good: '> **DANGER** Fire. The vapour explodes and kills, because the booth is closed. Keep every flame out of it.',
    check: (proof, say) => {
      for (const { caution, at } of cautionsOf(proof)) {
        if (caution.word !== 'DANGER' || proof.words.reasons.test(caution.text)) continue;
        const mend = 'Add why it is certain, with the word because; or write WARNING if it only could happen.';
        say({ at, found: caution.text, message: 'DANGER stands here without a reason.', mend });
      }
    },
  },
  {
    name: 'caution-reading-unsaid',
    from: ['L09'],
    severity: 'hint',
    why: 'The program has the sewer say that a caution was read, once a bundle unless the text says otherwise. Somebody should have decided it.',
    source: COMMON_PRACTICE,
    bad: '---\nprocedure: A-1\ntitle: A\n---\n\n## Sew the strap\n\n> **WARNING** ¦Needle. It can go through your finger. Take your foot off the treadle.\n\n- [ ] Strap lies flat\n',
    good: '---\nprocedure: A-1\ntitle: A\nread cautions: once a shift\n---\n\n## Sew the strap\n\n> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\n- [ ] Strap lies flat\n',
    check: (proof, say) => {
      if (proof.says('read cautions')) return;
      const grave = cautionsOf(proof).find(({ caution: { word } }) => word === 'WARNING' || word === 'DANGER');
      if (grave === undefined) return;
      const mend = 'Add read cautions: once a bundle, once a shift or every time to the lines at the top.';
      say({
        at: grave.at,
        found: grave.caution.text,
        message: 'The lines at the top do not say how often this is read.',
        mend,
      });
    },
  },
  {
    name: 'too-many-cautions',
    from: ['L10'],
    severity: 'warning',
    why: 'Whoever is warned of everything is warned of nothing.',
    source: COMMON_PRACTICE,
    bad: `> **CAUTION** Iron. It burns you. Stand it on its rest.

> **CAUTION** Steam. It burns you. Drain it first.

> **CAUTION** Snips. They cut your hand. Close them.

> **CAUTION** ¦Cable. You trip on it. Hang it up.`,
    good: '> **CAUTION** Iron. It burns you. Stand it on its rest.\n\n> **CAUTION** Snips. They cut your hand. Close them.',
    check: ({ procedure, at }, say) => {
      for (const { cautions } of procedure.steps) {
        const over = cautions[MOST];
        if (over === undefined) continue;
        const message = `This step has ${cautions.length} cautions; more than ${MOST} are not read.`;
        say({
          at: signalAt(at(over.line), over),
          found: over.text,
          message,
          mend: 'Split the step, or keep those that bite in it.',
        });
      }
    },
  },
  {
    name: 'caution-again',
    from: ['L10'],
    severity: 'warning',
    why: 'The same words a second time within five steps are passed over, and so is the next caution.',
    source: COMMON_PRACTICE,
    bad: `## Sew

> **CAUTION** Snips. They cut your hand. Close them.

- [ ] Sewn

## Trim

> **CAUTION** ¦Snips. They cut your hand. Close them.

- [ ] Trimmed`,
    good: `## Sew

> **CAUTION** Snips. They cut your hand. Close them.

- [ ] Sewn

## Trim

- [ ] Trimmed`,
    check: ({ procedure, at }, say) => {
      const seen = new Map<string, number>();
      for (const { step, caution } of all(procedure.steps)) {
        const before = seen.get(caution.text);
        seen.set(caution.text, step.number);
        if (before === undefined || step.number - before >= APART) continue;
        say({
          at: signalAt(at(caution.line), caution),
          found: caution.text,
          message: `Step ${before} has this very caution already.`,
          mend: 'Keep it at the first step that has the hazard, or say what is different here.',
        });
      }
    },
  },
  {
    name: 'picture-at-hazard',
    from: ['L28'],
    severity: 'warning',
    why: 'Where somebody can be hurt, a picture shows where the hands go, in every language.',
    source: COMMON_PRACTICE,
    bad: '## ¦Sew the strap\n\n> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\n- [ ] Strap lies flat',
    good: '## Sew the strap\n\n> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\n![Hands beside the needle](../media/hands.svg)\n\n- [ ] Strap lies flat',
    check: ({ procedure, at }, say) => {
      for (const { title, line, cautions, pictures } of procedure.steps) {
        if (pictures.length > 0 || cautions.every(({ word }) => word === 'NOTICE')) continue;
        const mend = 'Add a picture, or silence this rule with the reason why there is none.';
        say({ at: at(line), found: title, message: 'This step can hurt somebody and has no picture.', mend });
      }
    },
  },
];

interface CautionPassage extends Passage {
  readonly caution: Caution;
  readonly at: number;
}

function cautionsOf({ sentences, at }: Proof): readonly CautionPassage[] {
  return sentences.flatMap(({ first, passage }) => {
    const { caution } = passage;
    return first && caution !== null ? [{ ...passage, caution, at: signalAt(at(caution.line), caution) }] : [];
  });
}

/** Past the signal word and its stars. */
const signalAt = (at: number, { word }: Caution): number => at + word.length + 5;

const all = (steps: readonly Step[]) => steps.flatMap((step) => step.cautions.map((caution) => ({ step, caution })));

/** The first part is the hazard; after it a sentence that orders nothing is what it does, one that orders something how to avoid it. */
function lacking({ sentences }: Passage, { words }: Proof): string | undefined {
  const rest = sentences.slice(1).map(({ text }) => words.verbs.has(firstWord(text)) || words.negatives.test(text));
  if (!rest.includes(true))
    return rest.includes(false)
      ? 'how to avoid it, in a sentence that begins with a verb'
      : 'what it does and how to avoid it';
  return rest.includes(false) ? undefined : 'what the hazard does';
}

/** Whether a list begins in the quote of this line, before a further caution does. */
function hasList(text: string, from: number): boolean {
  const [, ...lines] = text.slice(from, from + 2000).split('\n');
  const end = lines.findIndex((line) => !line.startsWith('>') || /^>\s*\*\*[A-Z]/.test(line));
  return lines.slice(0, end === -1 ? lines.length : end).some((line) => /^>\s*(?:[-*+]|\d+[.)])\s/.test(line));
}
