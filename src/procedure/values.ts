import { nearest } from './nearest.ts';
import { cut, join, originOf, type Passage } from './passage.ts';
import type { Reading } from './reading.ts';

/** Puts the values of the front matter in place of their `{names}`. Put-in characters keep the place of the brace. */
export function insertValues(passage: Passage, { values, note }: Reading): Passage {
  const parts: Passage[] = [];
  let at = 0;
  for (const { 0: found, 1: name = '', index } of passage.text.matchAll(NAMED)) {
    const value = values.get(name);
    const origin = originOf(passage, index);
    if (value === undefined) {
      const near = nearest(name, [...values.keys()]);
      note({
        rule: 'value-unknown',
        at: origin,
        message: `No value of this name is given at the top of the file.`,
        found,
        mend: near ? `Write {${near}}.` : `Add ${name}: under values: at the top, or write the number itself.`,
      });
      continue;
    }
    const end = originOf(passage, index + found.length);
    const origins = Array.from({ length: value.length }, () => origin);
    parts.push(cut(passage, at, index), { text: value, origin: [...origins, end] });
    at = index + found.length;
  }
  return parts.length === 0 ? passage : join([...parts, cut(passage, at)]);
}

const NAMED = /\{ {0,3}([\p{L}_][\p{L}\p{N}_ -]{0,60}?) {0,3}\}/gu;
