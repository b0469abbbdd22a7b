import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { wordsOf } from '../../../src/procedure/proof/words.ts';
import { proofread } from '../../../src/procedure/proofread.ts';

const NEEDLE = '> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\n';
const sewn = (title: string, caution = ''): string =>
  `## ${title}\n\n- Seams: A, stitch 301 at 4.0 mm\n\n${caution}- [ ] Sewn flat\n\n`;
const step = (words: string, caution = ''): string => `## Do it\n\n${caution}${words}\n\n- [ ] Done\n\n`;

/** Lines at which a hazard lacks its caution, with the rows of the table. */
function missing(steps: string, top = '', file = 'a.md'): readonly string[] {
  const { findings } = proofread(`---\nprocedure: A\ntitle: B\n${top}---\n\n${steps}`, file);
  return findings.flatMap(({ rule, line, found }) =>
    rule === 'hazard-without-caution' ? [`${line} ${/^row [\d and]+/.exec(found)?.[0]}`] : [],
  );
}

test('the needle at the seam is warned of once, at or before the first', () => {
  expect(missing(sewn('Sew A') + sewn('Sew B'))).toEqual(['6 row 1']);
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B'))).toEqual([]);
  expect(missing(`## Set up\n\n${NEEDLE}- [ ] Set up\n\n${sewn('Sew A')}`)).toEqual([]);
  expect(missing(sewn('Sew A') + sewn('Sew B', NEEDLE))).toEqual(['6 row 1']);
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B'), 'read cautions: once a shift\n')).toEqual([]);
});

test('where cautions are read every time each step has its own', () => {
  const top = 'read cautions: every time\n';
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B') + sewn('Sew C'), top)).toEqual(['15 row 1', '21 row 1']);
});

test('every other hazard is warned of in each step that has it, whatever was read before', () => {
  const blade = '> **WARNING** Blade. It cuts to the bone. Lock the cutter off.\n\n';
  const pull = 'Pull the blade with its tool.';
  expect(missing(step(pull, blade) + step(pull).replace('Do it', 'Do it again'))).toEqual(['16 row 7']);
  expect(missing(step(pull, blade) + step(pull, blade).replace('Do it', 'Do it again'))).toEqual([]);
  expect(missing(sewn('Sew A', NEEDLE) + step('Change the needle.'))).toEqual(['16 row 2']);
  expect(missing(sewn('Sew A', NEEDLE) + step('Change the needle.', NEEDLE))).toEqual([]);
});

test('a NOTICE names no hazard, and neither does another hazard’s caution', () => {
  expect(missing(sewn('Sew A', '> **NOTICE** Needle. Its hole stays. Look first.\n\n'))).toEqual(['6 row 1']);
  expect(missing(sewn('Sew A', '> **CAUTION** Iron. It burns you. Stand it up.\n\n'))).toEqual(['6 row 1']);
});

test.each([
  ['Sew the hem.', ['row 1']],
  ['Turn the corner with the needle down.', ['row 1']],
  ['Change the needle.', ['row 1', 'row 2']],
  ['Change the sharp old needle.', ['row 1', 'row 2']],
  ['Thread the machine.', ['row 2']],
  ['Change the bobbin now.', ['row 2']],
  ['Pull the blade with its tool.', ['row 7']],
  ['Cut the tails with the snips.', ['row 9']],
  ['Cut the strap with the knife.', ['row 9']],
  ['Start the cutter.', ['row 6']],
  ['Wait until the moving head stands.', ['row 6']],
  ['Press the seam with the iron.', ['row 16']],
  ['Wipe it with solvent.', ['row 18 and 19']],
  ['Use the spray glue.', ['row 18 and 19']],
  ['Switch the vacuum on.', ['row 11']],
  ['Lay the sheet on the vacuum table.', ['row 11']],
  ['| tool | use |\n|---|---|\n| knife | cut |', ['row 9']],
  ['Fit a cut-resistant glove.', []],
  ['Change the label. The needle is not touched: thread lies ready. Wind it on the machine.', ['row 1']],
])('%s', (words, rows) => {
  expect(missing(step(words)).map((each) => each.replace(/^\d+ /, ''))).toEqual(rows);
});

test.each([
  ['Cambie la aguja.', ['row 1', 'row 2']],
  ['Pon una aguja del 110.', ['row 1', 'row 2']],
  ['Enhebre la máquina.', ['row 2']],
  ['Cosa el dobladillo.', ['row 1']],
  ['Saque la cuchilla.', ['row 7']],
  ['Corte la cinta con el cuchillo.', ['row 9']],
  ['Arranque la cortadora.', ['row 6']],
  ['Active el vacío.', ['row 11']],
  ['Use la plancha.', ['row 16']],
  ['Aplique el adhesivo.', ['row 18 and 19']],
])('in Spanish: %s', (words, rows) => {
  expect(missing(step(words), '', 'A.es.md').map((each) => each.replace(/^\d+ /, ''))).toEqual(rows);
});

test('the finding names the row by its number and in words, as the guide has it', () => {
  const { findings } = proofread(`---\nprocedure: A\ntitle: B\n---\n\n${step('Pull the blade out.')}`, 'a.md');
  const found = findings.find(({ rule }) => rule === 'hazard-without-caution');
  expect(found?.message).toContain('(row 7, blade or notch punch, blade change)');

  const guide = readFileSync(new URL('../../../procedures/README.md', import.meta.url), 'utf8');
  const rows = wordsOf('en').hazards.map(
    ({ row, hazard, word, warned }) =>
      `| ${row} | ${hazard} | ${word} | ${warned === 'once' ? 'once, at or before the first seam' : 'in each such step'} |`,
  );
  expect(guide).toContain(rows.join('\n'));
});
