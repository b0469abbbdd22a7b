import { cut, originOf, type Passage } from './passage.ts';
import type { Reading } from './reading.ts';

/** The words as an id: small letters and digits of any script, everything between them one hyphen. May come out empty. */
export function slug(words: string): string {
  // Most words are plain ASCII, for which the short way gives the same.
  if (/^[\x20-\x7e]*$/.test(words))
    return words
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '');
  return words
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
}

export interface Pinned {
  readonly passage: Passage;
  readonly pin: string | null;
}

/** Takes the `{#id}` off the end of a line. */
export function takePin(passage: Passage, { note }: Reading): Pinned {
  const start = passage.text.lastIndexOf('{#');
  if (start === -1) return { passage, pin: null };
  const pin = /^\{#([\p{L}\p{N}][\p{L}\p{N}._-]{0,79})\}\s*$/u.exec(passage.text.slice(start))?.[1];
  const first = passage.text.indexOf('{#');
  if (pin === undefined || first !== start) {
    note({
      rule: 'pin-unreadable',
      at: originOf(passage, first),
      message: 'This looks like an id, but an id stands alone at the end of the line.',
      found: passage.text.slice(first),
      mend: 'Write it last and without spaces, such as {#bore-front}.',
    });
  }
  return { passage: cut(passage, 0, passage.text.slice(0, first).trimEnd().length), pin: pin ?? null };
}

/** Notes the second of two things with one id. Keeps the ids it has seen. */
export function uniqueIds(of: 'step' | 'point', { note }: Reading): (id: string, words: string, at: number) => void {
  const seen = new Set<string>();
  const where = of === 'step' ? 'procedure' : 'step';
  return (id, words, at) => {
    if (id === '') {
      const mend = 'Write some words, or give it an id at the end of the line, such as {#lamp-patch}.';
      const message = `This ${of} has no letters or digits to make an id from.`;
      note({ rule: 'id-missing', at, message, found: words, mend });
    } else if (seen.has(id)) {
      const message = `This ${of} has the same id, ${id}, as one before it in the ${where}.`;
      const mend = `Word them differently, or give one an id of its own at the end of its line, such as {#${id}-2}.`;
      note({ rule: 'id-twice', at, message, found: words, mend });
    }
    seen.add(id);
  };
}
