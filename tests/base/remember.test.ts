import { expect, test } from 'vitest';
import { remember } from '../../src/base/remember.ts';

test('what was asked lately is known, what was asked longest ago is forgotten', () => {
  const made: string[] = [];
  const ask = remember<string>(2);
  const answer = (key: string): string => {
    made.push(key);
    return `answer ${key}`;
  };
  for (const key of ['a', 'b', 'a', 'c', 'a', 'b']) {
    expect(ask(key, () => answer(key))).toBe(`answer ${key}`);
  }
  expect(made).toEqual(['a', 'b', 'c', 'b']);
});
