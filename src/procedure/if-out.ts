import type { StepId } from '../base/brand.ts';
import { slug } from './ids.ts';
import { nearest } from './nearest.ts';
import { originOf, type Passage } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { IfOut } from './procedure.ts';
import type { Reading } from './reading.ts';

/** What `back to …` can name: a step by its number, its id or its words. */
export interface StepName {
  readonly number: number;
  readonly id: StepId;
  readonly title: string;
}

/** Reads the words after `If out:` in the step of this number. */
export function readIfOut(words: Passage, number: number, steps: readonly StepName[], { note }: Reading): IfOut {
  const text = plainText(words.text);
  const found = /^back to (?:step )?(.+)$/i.exec(text);
  if (!found) return { text, backTo: null };
  const asked = (found[1] ?? '').replace(/^["“']|["”']$/g, '').replace(/\.$/, '');
  const target = /^\d+$/.test(asked)
    ? steps.find((step) => step.number === Number(asked))
    : steps.find((step) => step.id === asked || slug(step.title) === slug(asked));
  const at = originOf(words, Math.max(0, words.text.indexOf(asked)));
  if (target === undefined) {
    const near = nearest(
      asked,
      steps.map((step) => step.title),
    );
    const mend = near ? `Write back to ${near}.` : 'Write back to and the words of an earlier step.';
    note({ rule: 'step-unknown', at, message: 'No step of the procedure has this name.', found: asked, mend });
    return { text, backTo: null };
  }
  if (target.number > number) {
    const mend = 'Name this step or one before it.';
    note({
      rule: 'step-later',
      at,
      message: `${target.title} comes later, so nobody can go back to it.`,
      found: asked,
      mend,
    });
    return { text, backTo: null };
  }
  return { text, backTo: target.id };
}
