import { expect, test } from 'vitest';
import { asked, heard } from '../../src/app/dialogue.ts';
import { modeOf } from '../../src/app/mode.ts';
import { pictureAt, stepPictures } from '../../src/app/step-pictures.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { Digest } from '../../src/base/brand.ts';
import { refuse } from '../../src/base/result.ts';
import type { SeenPicture } from '../../src/picture/seen-picture.ts';
import { openKeys } from '../../src/screens/open-keys.ts';
import { pictureBeside } from '../../src/screens/picture-beside.ts';
import { loadWords } from '../../src/words/load.ts';
import { readSample } from '../picture/read-sample.ts';
import { press } from '../screens/lining.ts';
import { workroom } from './workroom.ts';

const step = (title: string, seams: string, pictures: string): string => `
## ${title}

- Seams: ${seams}, stitch 301 at 4.0 mm

${pictures}

- [ ] ${title} is done
`;
const procedure = `---
procedure: T-1
title: Small lining
sets: 2
---

# Small lining
${step('Sew the sleeves', 'D1 D2', '![Sleeves](../media/lining.svg#D1,D2)')}
${step('Join the panels', 'A-B', '![Join](../media/lining.svg#A-B)\n\n![Notches](../media/other.svg#notch-1)')}
## Look it over

- [ ] It is looked over
`;

const drawing: SeenPicture = {
  is: 'drawing',
  digest: 'd'.repeat(64) as Digest,
  drawing: readSample('lining'),
  scale: 'to scale',
};

async function atFirstStep(text = procedure): Promise<AppStore> {
  const room = await workroom(text);
  const program = await room.program();
  await press(program, '"ines" enter "b-1" enter');
  const { play } = program.app();
  if (!play) throw new Error('no bundle');
  const broken = refuse('picture-broken', 'This picture cannot be read; save it again as JPEG or PNG.');
  const found = new Map<string, SeenPicture>([
    ['../media/lining.svg', drawing],
    ['../media/other.svg', { is: 'unshown', why: broken.error }],
  ]);
  program.tell({ news: 'pictures', pictures: { of: play.procedure, found } });
  await program.settled();
  return program;
}

test('a picture shows what is sewn of the set at hand, and of no other', async () => {
  const program = await atFirstStep();
  const sewn = (): unknown => pictureAt(program.app())?.wanted.sewn;
  expect(sewn()).toEqual([]);
  await press(program, 'enter');
  expect(sewn()).toEqual(['D1', 'D2']);
  await press(program, 'enter');
  expect(stepPictures(program.app())).toEqual([]);
  await press(program, 'enter');
  expect(program.app().play?.next).toMatchObject({ at: { set: 2 } });
  expect(sewn()).toEqual([]);
});

test('what was sewn for the whole bundle is sewn in each of its sets', async () => {
  const whole = procedure.replace('- Seams: D1 D2,', '- For the whole bundle\n- Seams: D1 D2,');
  const program = await atFirstStep(whole);
  await press(program, 'enter enter enter');
  expect(program.app().play?.next).toMatchObject({ at: { set: 2, step: { title: 'Join the panels' } } });
  expect(pictureAt(program.app())?.wanted.sewn).toEqual(['D1', 'D2']);
});

test('a picture stands beside the words from 100 columns on', async () => {
  const { app } = await atFirstStep();
  expect(pictureBeside(app(), { columns: 99, rows: 30 })).toBeUndefined();
  expect(pictureBeside(app(), { columns: 100, rows: 30 })).toBeDefined();
});

test('a drawing of which the text names nothing brings out the seams that are next, as far as it has them', async () => {
  const whole = procedure.replace('lining.svg#D1,D2', 'lining.svg').replace('D1 D2,', 'D1 D9,');
  const program = await atFirstStep(whole);
  expect(pictureAt(program.app())?.wanted).toEqual({ broughtOut: ['D1'], sewn: [] });
  expect(asked(program.app(), null).lines.join()).toContain('Picture: Sleeves (brings out D1)');
});

test('one key shows the pictures of a step, another the next of them, and what was typed stays', async () => {
  const program = await atFirstStep();
  await press(program, 'enter p');
  expect(modeOf(program.app())).toBe('picture');
  expect(pictureAt(program.app())?.alt).toBe('Join');
  await press(program, 'down down');
  expect(pictureAt(program.app())?.alt).toBe('Notches');
  await press(program, 'up enter');
  expect(modeOf(program.app())).toBe('confirm');
  await press(program, 'enter p');
  // The step has no picture: nothing happens.
  expect(modeOf(program.app())).toBe('confirm');
});

test('pictures of another text are none of this one', async () => {
  const program = await atFirstStep();
  const { pictures, play } = program.app();
  if (!pictures || !play) throw new Error('no pictures');
  expect(pictureAt(program.app())?.seen).toBe(drawing);
  program.tell({ news: 'pictures', pictures: { ...pictures, of: { ...play.procedure } } });
  await program.settled();
  expect(pictureAt(program.app())).toMatchObject({ alt: 'Sleeves', seen: undefined });
});

test('a dialogue tells what each picture brings out, in the words of the hand', async () => {
  const program = await atFirstStep();
  const lines = (): string => asked(program.app(), null).lines.join('\n');
  expect(lines()).toContain(
    'Picture: Sleeves (brings out D1, D2)\n  D1: 945 by 35 mm, on A.\n  D2: 1030 by 35 mm, on B.',
  );
  program.tell({ news: 'words', words: await loadWords('es') });
  await program.settled();
  expect(lines()).toContain('  D1: 945 por 35 mm, sobre A.');
  program.tell({ news: 'words', words: null });
  await press(program, 'enter');
  expect(lines()).toContain(
    'Picture: Join (brings out A-B)\n  A-B, Join A to B, 12 from both edges: 1220 mm long, on B and A',
  );
  expect(lines()).toContain(
    'Picture: Notches (brings out notch-1)\n  This picture cannot be read; save it again as JPEG or PNG.',
  );
});

test('a dialogue tells it again when it is asked to', async () => {
  const program = await atFirstStep();
  const again = (): unknown => heard(program.app(), 'Picture');
  expect(again()).toEqual({ print: expect.arrayContaining(['  D1: 945 by 35 mm, on A.']) });
  expect(heard(program.app(), '?')).toEqual({ print: expect.arrayContaining([expect.stringContaining('`picture`')]) });
  await press(program, 'enter enter');
  expect(again()).toEqual({ print: ['This step has no picture.'] });
  expect(JSON.stringify(heard(program.app(), '?'))).not.toContain('`picture`');
});

test('where there is one thing to choose from, no key offers to choose', async () => {
  const program = await atFirstStep();
  const words = (): readonly string[] => openKeys(program.app()).map((key) => key.words);
  await press(program, 'p');
  expect(words()).not.toContain('choose');
  await press(program, 'escape enter p');
  expect(words()).toContain('choose');
});
