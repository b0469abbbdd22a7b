import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { next } from '../../src/bundle/next.ts';
import { verify } from '../../src/commands/verify.ts';
import { who } from '../../src/commands/who.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';
import { callDemo, called } from '../commands/demo-room.ts';
import { program, quietEnv } from '../playthrough/lining.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { check, ines, ticket } from '../tamper/signed-room.ts';

let place = '';
let model = '';
beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), 'evil-days-'));
  model = join(place, 'room');
  await callDemo(place, 'room');
});
afterAll(() => rmSync(place, { recursive: true, force: true }));

/** A practice room that may be spoiled. */
function practiceRoom(): string {
  const room = join(tempFolder(), 'room');
  cpSync(model, room, { recursive: true });
  return room;
}
const ledgerOf = (room: string): string => join(room, '.walkfoot', 'ledger.db');
/** The bundled program as a person calls it, with these lines typed. */
const run = (input: string, ...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    input,
    encoding: 'utf8',
    env: quietEnv(),
  });
  return { status, stdout, stderr };
};

test('the clock set back an hour and forward a year: nothing is refused or lost, it is marked, and the ledger is intact', async () => {
  const file = join(tempFolder(), 'ledger.db');
  const store = openLedger(file, { station: 'SEW-1' });
  const { ledger, clock } = await workroom(smallProcedure, { store, signed: true });
  const answers = async (typed: string): Promise<void> => {
    const playing = await ledger.playing(ticket);
    if (!playing.ok) throw new Error(playing.error.message);
    const wanted = next(playing.value.procedure, ledger.room(), playing.value.bundle, ines);
    if (wanted.want !== 'point') throw new Error(wanted.want);
    const { set, step } = wanted.at;
    const done = await ledger.attempt(ticket, {
      do: 'check',
      hand: ines,
      set,
      step: step.id,
      point: wanted.point.id,
      place: wanted.place,
      typed,
    });
    expect(done.ok).toBe(true);
  };
  await ledger.attempt(ticket, { do: 'open', hand: ines });
  clock.pass(-3600);
  await answers('4');
  clock.pass(365 * 86_400);
  await answers('match');
  const marks = (await store.read({ ticket })).map(({ entry }) => entry.body.clockBack);
  expect(marks).toEqual([undefined, undefined, 3600, undefined]);
  await store.close();
  expect(check(file)).toMatchObject({ fault: null, clockSetBack: 1 });
});

test('settings half written: a sentence and exit 2 wherever they break off, and all is there when they are whole again', async () => {
  const room = practiceRoom();
  const file = join(room, 'walkfoot.yaml');
  const whole = readFileSync(file);
  const before = readFileSync(ledgerOf(room));
  let refused = 0;
  for (let length = 0; length < whole.length - 1; length++) {
    writeFileSync(file, whole.subarray(0, length));
    const answer = await called((io) => who('B-1041', { room }, io), room).catch((trouble: Error) => trouble.message);
    if (typeof answer !== 'string') continue;
    expect(answer).toMatch(/walkfoot\.yaml|belongs to station SEW-1/);
    refused++;
  }
  expect(refused).toBeGreaterThan(20);
  writeFileSync(file, whole);
  expect(readFileSync(ledgerOf(room))).toEqual(before);
  expect((await called((io) => verify(undefined, { room }, io), room)).code).toBe(0);
});

test('two stations of one name that both took a copy of the ledger: the key tells them apart', () => {
  const room = practiceRoom();
  const twin = join(tempFolder(), 'twin');
  cpSync(room, twin, { recursive: true });
  rmSync(join(twin, '.walkfoot', 'station.key'));
  const answer = run('', 'ticket', 'LIN-2207', '--room', twin);
  expect(answer).toMatchObject({ status: 2, stdout: '' });
  expect(answer.stderr).toMatch(/^walkfoot: The station’s key is gone.*--new-key.*\n$/);
  expect(run('7305\n', 'station', '--new-key', '--hand', 'Vera', '--room', twin).status).toBe(0);
  // Both go on; whoever has a checkpoint of the one sees that the other is not its continuation.
  writeFileSync(join(room, 'kept'), run('', 'station', '--checkpoint', '--room', room).stdout);
  run('', 'ticket', 'LIN-2207', '--room', room);
  writeFileSync(join(room, 'kept-later'), run('', 'station', '--checkpoint', '--room', room).stdout);
  run('', 'ticket', 'LIN-2207', '--room', twin);
  run('', 'ticket', 'LIN-2207', '--room', twin);
  expect(run('', 'verify', '--since', join(room, 'kept'), '--room', twin).status).toBe(0);
  const forked = run('', 'verify', '--since', join(room, 'kept-later'), '--room', twin);
  expect(forked).toMatchObject({ status: 1, stdout: expect.stringMatching(/history was rewritten/) });
});

test('a procedure edited while its bundle is sewn: the bundle keeps what was released', () => {
  const room = practiceRoom();
  const draft = join(room, 'procedures', 'LIN-2207.md');
  run('22\n', 'sew', 'B-1047', '--hand', 'Ines', '--plain', '--room', room);
  const text = readFileSync(draft, 'utf8');
  writeFileSync(draft, text.replaceAll('312', '999').replace(/## [\s\S]*/, '## Nothing is left\n\n- [ ] Gone\n'));
  const played = run('R-340\n', 'sew', 'B-1047', '--hand', 'Ines', '--plain', '--room', room);
  expect(played.stdout).not.toContain('Gone');
  rmSync(draft);
  expect(run('', 'who', 'B-1047', '--room', room).stdout).toContain('Pieces in the bundle');
  expect(run('', 'verify', '--room', room).status).toBe(0);
});

test('a log that is not this ledger’s lies beside it: what was recorded is there, and work goes on', () => {
  const room = practiceRoom();
  const db = ledgerOf(room);
  const before = readFileSync(db);
  // A foreign log: its sums do not fit the file it is put beside.
  writeFileSync(`${db}-wal`, Buffer.concat([before.subarray(0, 4096), before.subarray(0, 4096)]));
  expect(run('', 'verify', '--room', room)).toMatchObject({ status: 0 });
  expect(run('', 'ticket', 'LIN-2207', '--room', room)).toMatchObject({ status: 0 });
  expect(run('', 'verify', '--room', room)).toMatchObject({ status: 0 });
});
