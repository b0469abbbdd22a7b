import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { ok, refuse } from '../../src/base/result.ts';
import { type Proofreader, patientProofreader, readDraft } from '../../src/commands/read-draft.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import { readProcedure } from '../../src/storage/procedure-files.ts';
import { svg } from '../drawing/svg.ts';
import { tempFolder } from '../storage/temp-folder.ts';

test('a text that stands as it stood is not proofread twice; one that was saved is, and so is the same under another name', () => {
  const proof = patientProofreader();
  const text = '# A procedure\n';
  const first = proof(text, 'a.md', null);
  expect(proof(text, 'a.md', null)).toBe(first);
  expect(proof(text, 'b.md', null)).not.toBe(first);
  expect(proof('# Another\n', 'a.md', null).procedure.title).toBe('Another');
  expect(proof(text, 'a.md', null)).toEqual(first);
});

const SPACED = `---\nprocedure: P-1\ntitle: Lines\n---\n\n## Measure the lines\n\n- If out: hold the set\n\n![Lines](../media/a.svg#a)\n\n- [ ] Spacing, three places ____ ____ ____ mm (36 ±2 of a–b)\n`;
const lines = (apart: number): string => svg(`<line id="a" x2="9"/><line id="b" y1="${apart}" x2="9" y2="${apart}"/>`);

/** A room with one picture. */
const showing =
  (text: string | null, name = 'media/a.svg'): Parameters<Proofreader>[2] =>
  () => {
    if (text === null) return refuse('picture-missing', 'There is none.');
    const bytes = new TextEncoder().encode(text);
    return ok({ name, bytes, digest: digestOf(bytes) });
  };

test('a text is proofread again when its drawing was changed, taken away or put back', () => {
  const proof = patientProofreader();
  const rules = (drawing: string | null): readonly string[] =>
    proof(SPACED, 'a.md', showing(drawing)).findings.map(({ rule }) => rule);
  expect(rules(lines(36))).toEqual([]);
  expect(rules(lines(40))).toEqual(['nominal-unlike-drawing']);
  expect(rules(null)).toEqual(['measure-missing']);
  expect(rules(lines(36))).toEqual([]);
  expect(proof(SPACED, 'a.md', showing(lines(36)))).toBe(proof(SPACED, 'a.md', showing(lines(36))));
});

test('what is no SVG file is not read as a drawing; where no picture can be looked for, nothing is asked of any', () => {
  const rules = (pictureAt: Parameters<Proofreader>[2]): readonly string[] =>
    patientProofreader()(SPACED, 'a.md', pictureAt).findings.map(({ rule }) => rule);
  expect(rules(showing('\u0089PNG', 'media/a.png'))).toEqual(['measure-missing']);
  expect(rules(null)).toEqual([]);
});

test('a photograph that cannot be shown is an error of the text that shows it, and so stops its release', async () => {
  const room = tempFolder();
  for (const folder of ['procedures', 'media']) mkdirSync(join(room, folder));
  const text = '---\nprocedure: P-1\ntitle: A\n---\n\n## Look\n\n![Knot](../media/knot.png)\n\n- [ ] Knot seen\n';
  writeFileSync(join(room, 'procedures/P-1.md'), text);
  const found = (picture: string | Uint8Array): readonly unknown[] => {
    writeFileSync(join(room, 'media/knot.png'), picture);
    const file = readProcedure(room, 'procedures/P-1.md');
    if (!file.ok) throw new Error(file.error.message);
    return readDraft(room, file.value).findings;
  };
  const picture = await sharp({ create: { width: 30, height: 20, channels: 3, background: '#aaa' } })
    .png()
    .toBuffer();
  expect(found(picture)).toEqual([]);
  const unshown = { rule: 'picture-unshown', severity: 'error', line: 8, column: 9 };
  // A copy that broke off has a sound head.
  expect(found(picture.subarray(0, picture.length - 20))).toEqual([expect.objectContaining(unshown)]);
  expect(found('no picture')).toEqual([expect.objectContaining(unshown)]);
  const claims = Buffer.from(picture);
  claims.writeUInt32BE(60_000, 16);
  claims.writeUInt32BE(1000, 20);
  expect(found(claims)).toEqual([
    expect.objectContaining({ ...unshown, message: expect.stringContaining('more than 50 million pixels') }),
  ]);
});
