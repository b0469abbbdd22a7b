import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod/mini';

/**
 * What is asked of electronic records, row by row in our own words, with the clause it comes from and the tests that show it: as
 * good practice, never a claim of compliance. A row that is not wholly done says in `notYet` what is missing.
 */
const words = z.string().check(z.minLength(1));
const table = z.strictObject({
  claim: z.literal('as good practice, never a claim of compliance'),
  status: z.strictObject({ read: words, secondary: words, 'from memory': words }),
  requirements: z.array(
    z.strictObject({
      number: words,
      requirement: words,
      clauses: z
        .array(
          z.strictObject({
            document: words,
            clause: words,
            status: z.enum(['read', 'secondary', 'from memory']),
            note: z.optional(words),
          }),
        )
        .check(z.minLength(1)),
      tests: z.array(z.strictObject({ file: words, title: words })),
      notYet: z.optional(words),
    }),
  ),
});

const { requirements } = table.parse(
  JSON.parse(readFileSync(resolve(import.meta.dirname, 'requirements.json'), 'utf8')),
);

/** Rows of which something is still missing. */
const NOT_YET = ['R9', 'R13', 'R14', 'R16', 'R21', 'R24'];

test('there are 25 requirements, none twice', () => {
  expect(requirements.map(({ number }) => number)).toEqual(Array.from({ length: 25 }, (_, at) => `R${at + 1}`));
});

test('each requirement is shown by a test that is there', () => {
  const wrong = requirements.flatMap(({ number, tests }) => [
    ...(tests.length === 0 ? [`${number} has no test`] : []),
    ...tests.filter(({ file, title }) => !holds(file, title)).map(({ file, title }) => `${number}: ${file} › ${title}`),
  ]);
  expect(wrong).toEqual([]);
});

test('what is still missing is known by its numbers', () => {
  expect(requirements.filter(({ notYet }) => notYet !== undefined).map(({ number }) => number)).toEqual(NOT_YET);
});

test('a title counts only where a test has it that runs', () => {
  const file =
    "// test('in a comment', () => {});\ntest.skip('skipped', () => {});\ntest.each([1])('of many', () => {});";
  expect(['in a comment', 'skipped', 'of many', 'of'].filter((title) => isTitleIn(file, title))).toEqual(['of many']);
});

function holds(file: string, title: string): boolean {
  const path = resolve(import.meta.dirname, '../..', file);
  return /\.test\.tsx?$/.test(file) && existsSync(path) && isTitleIn(readFileSync(path, 'utf8'), title);
}

/** Whether a test of this title runs in the file: `test('…'`, `it('…'`, or what follows `.each(…)`. */
function isTitleIn(source: string, title: string): boolean {
  const code = source.replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/.*$/gm, '');
  return new RegExp(`(?:\\b(?<!\\.)(?:test|it)|\\))\\(\\s*(['"\`])${RegExp.escape(title)}\\1,`).test(code);
}
