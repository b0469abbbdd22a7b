import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { keptPictures } from '../../src/commands/find-picture.ts';
import { rehearse } from '../../src/commands/rehearse.ts';
import { sew } from '../../src/commands/sew.ts';
import { stationThread } from '../../src/commands/station-thread.ts';
import { verify } from '../../src/commands/verify.ts';
import { who } from '../../src/commands/who.ts';
import { readRoomFile } from '../../src/storage/settings.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called, readRoom } from './demo-room.ts';

const file = readRoomFile('name: A\nstation: t\n');
if (!file.ok) throw new Error(file.error.message);
const SETTINGS = file.value.settings;

/** A practice room; B-1041 stands before the top-stitch of its first set. */
async function practice() {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  const play = (ticket: string, hand: string, ...lines: readonly string[]) =>
    called(
      (io) => sew(ticket, { room, hand, plain: true }, io),
      cwd,
      undefined,
      lines.map((line) => `${line}\n`).join(''),
    );
  return { cwd, room, play };
}

test('before a seam that cannot be undone a sewer says what is on the bobbin, with the length of its drawing', async () => {
  const { cwd, room, play } = await practice();
  const { out } = await play('B-1041', 'Ines', '', '', '3', '', '1');
  expect(out).toContain('This step takes 7.2 m from the bobbin');
  expect(out).toContain('About 3 m are left on the bobbin in the machine.');
  expect(out).toContain('Bobbin: 30 m from here on.');
  const rows = JSON.parse((await called((io) => who('B-1041', { room, json: true }, io), cwd)).out);
  expect(rows.filter(({ kind }: { kind: string }) => kind === 'bobbin-fitted')).toHaveLength(2);
  expect(await called((io) => verify(undefined, { room }, io), cwd)).toMatchObject({ code: 0 });
});

test('where the room does not reckon with bobbins nobody is asked', async () => {
  const { room, play } = await practice();
  const settings = join(room, 'walkfoot.yaml');
  writeFileSync(settings, readFileSync(settings, 'utf8').replace('bobbin: 30 m', 'bobbin: off'));
  expect((await play('B-1041', 'Ines', '', '', '1')).out).not.toContain('obbin in the machine');
});

test.each([
  ['a seam that no drawing has', { ids: ['D1', 'D2', 'D3', 'D4', 'D9'] }, 'unknown'],
  ['a stitch whose loopers take from cones', { stitch: '401' }, 'nothing'],
])('of a step with %s nothing is reckoned', async (_, otherwise, is) => {
  const { room } = await practice();
  const read = await readRoom(room);
  const settings = { ...SETTINGS, bobbin: '30 m' };
  const thread = stationThread(settings, keptPictures(read.store));
  const playing = await read.playing('B-1041');
  const { procedure } = playing;
  const whole = await thread(playing);
  expect(whole?.takes.size).toBe(6);
  const [first] = whole?.takes.keys() ?? [];
  const steps = procedure.steps.map((step) =>
    step.id === first && step.facts.seams
      ? { ...step, facts: { ...step.facts, seams: { ...step.facts.seams, ...otherwise } } }
      : step,
  );
  const less = await thread({ ...playing, procedure: { ...procedure, steps } });
  expect(first && less?.takes.get(first)).toBe(is === 'unknown' ? null : undefined);
  expect([...(less?.takes.values() ?? [])].filter((takes) => takes !== null)).toHaveLength(5);
  await read.close();
});

const strip = `---
procedure: T-1
title: Strip
sets: 1
---

# Strip

## Sew the strip

- Seams: S, stitch 301 at 4.0 mm, visible

![The strip](../media/strip.svg#S)

- [ ] Sewn
`;
const stripDrawing =
  '<svg xmlns="http://www.w3.org/2000/svg" width="3000mm" height="50mm" viewBox="0 0 3000 50"><line id="S" class="seam" x1="0" y1="10" x2="3000" y2="10"/></svg>';

test.each([
  ['bobbin: 30 m', true],
  ['bobbin: off', false],
  [null, false],
] as const)('a rehearsal asks for a bobbin as the room does: %s', async (setting, asks) => {
  const room = tempFolder();
  for (const folder of ['procedures', 'media']) mkdirSync(join(room, folder));
  writeFileSync(join(room, 'procedures/T-1.md'), strip);
  writeFileSync(join(room, 'media/strip.svg'), stripDrawing);
  if (setting !== null) writeFileSync(join(room, 'walkfoot.yaml'), `name: A\nstation: t\nsettings:\n  ${setting}\n`);
  const { out } = await called(
    (io) => rehearse('procedures/T-1.md', { room, plain: true }, io),
    room,
    undefined,
    '\n\n',
  );
  expect(out).toContain('Sew the strip');
  expect(out.includes('Nobody has said how much is on the bobbin in the machine.')).toBe(asks);
  expect(out).toContain('  S: 3000 mm long.');
});
