import { expect, test } from 'vitest';
import { proofread } from '../../../src/procedure/proofread.ts';

const NEEDLE = '> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.\n\n';
const sewn = (title: string, caution = ''): string =>
  `## ${title}\n\n- Seams: A, stitch 301 at 4.0 mm\n\n${caution}- [ ] Sewn flat\n\n`;

/** Lines at which a hazard lacks its caution, with the hazard. */
function missing(steps: string, top = ''): readonly string[] {
  const { findings } = proofread(`---\nprocedure: A\ntitle: B\n${top}---\n\n${steps}`, 'a.md');
  return findings.flatMap(({ rule, line, found }) => (rule === 'hazard-without-caution' ? [`${line} ${found}`] : []));
}

const IS_NEEDLE = 'needle at the sewing point';

test('the needle is warned of once, at or before the first seam', () => {
  expect(missing(sewn('Sew A') + sewn('Sew B'))).toEqual([`6 ${IS_NEEDLE}`]);
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B'))).toEqual([]);
  expect(missing(`## Set up\n\n${NEEDLE}- [ ] Set up\n\n${sewn('Sew A')}`)).toEqual([]);
  expect(missing(sewn('Sew A') + sewn('Sew B', NEEDLE))).toEqual([`6 ${IS_NEEDLE}`]);
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B'), 'read cautions: once a shift\n')).toEqual([]);
});

test('where cautions are read every time each step has its own', () => {
  const top = 'read cautions: every time\n';
  expect(missing(sewn('Sew A', NEEDLE) + sewn('Sew B') + sewn('Sew C'), top)).toEqual([
    `15 ${IS_NEEDLE}`,
    `21 ${IS_NEEDLE}`,
  ]);
});

test('a NOTICE names no hazard, and neither does another hazard’s caution', () => {
  expect(missing(sewn('Sew A', '> **NOTICE** Needle. Its hole stays. Look first.\n\n'))).toEqual([`6 ${IS_NEEDLE}`]);
  expect(missing(sewn('Sew A', '> **CAUTION** Iron. It burns you. Stand it up.\n\n'))).toEqual([`6 ${IS_NEEDLE}`]);
});

test.each([
  ['Pull the blade with its tool.', 'blade or notch punch'],
  ['Cut the tails with the snips.', 'hand knife, shears or snips'],
  ['Press the seam with the iron.', 'hot iron, steam or hot knife'],
  ['Wipe it with solvent.', 'vapour of solvent or adhesive, and its ignition'],
  ['Use the spray glue.', 'vapour of solvent or adhesive, and its ignition'],
  ['Switch the vacuum on.', 'vacuum: fingers, film and a lifting lid'],
  ['Lay the sheet on the vacuum table.', 'vacuum: fingers, film and a lifting lid'],
  ['Wait until the moving head stands.', 'moving head of the cutter'],
  ['Fit a cut-resistant glove.', undefined],
])('%s', (words, hazard) => {
  const found = missing(`## Do it\n\n${words}\n\n- [ ] Done\n`);
  expect(found.map((each) => each.replace(/^\d+ /, ''))).toEqual(hazard === undefined ? [] : [hazard]);
});
