import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { outline } from '../../src/procedure/outline.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

const FOLDER = new URL('./fixtures/', import.meta.url);

/** `NAME.md` and beside it `NAME.json`, what the reader makes of it. Written anew with `UPDATE=1`; look at the difference then. */
describe('fixtures', () => {
  const names = readdirSync(fileURLToPath(FOLDER)).filter((name) => name.endsWith('.md'));
  test.each(names)('%s', (name) => {
    const { procedure, findings } = readProcedure(readFileSync(new URL(name, FOLDER), 'utf8'), name);
    const read = `${JSON.stringify({ outline: outline(procedure), procedure, findings }, null, 2)}\n`;
    const beside = new URL(name.replace(/\.md$/, '.json'), FOLDER);
    if (process.env.UPDATE === '1') writeFileSync(beside, read);
    expect(read).toBe(readFileSync(beside, 'utf8'));
  });
});
