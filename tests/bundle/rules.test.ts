import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const source = new URL('../../src/bundle/', import.meta.url);
const stories = new URL('./', import.meta.url);

const textOf = (folder: URL, ending: string): string =>
  readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
    .join('\n');

const namesIn = (text: string, pattern: RegExp): readonly string[] => [
  ...new Set([...text.matchAll(pattern)].map(([, name]) => name ?? '')),
];

test('every refusal of a bundle has a story', () => {
  const rules = namesIn(textOf(source, '.ts'), /\brefuse\(\s*'([^']+)'/g);
  const told = namesIn(textOf(stories, '.test.ts'), /(?:refused\(|rule: )'([^']+)'/g);
  expect(rules.length).toBeGreaterThan(40);
  expect(rules.filter((rule) => !told.includes(rule))).toEqual([]);
});

test('no refusal is written without a name that can be found', () => {
  const text = textOf(source, '.ts');
  expect([...text.matchAll(/\brefuse\(/g)]).toHaveLength([...text.matchAll(/\brefuse\(\s*'[a-z-]+'/g)].length);
});
