import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test, vi } from 'vitest';
import { receipt } from '../../src/commands/receipt.ts';
import { station } from '../../src/commands/station.ts';
import { verify } from '../../src/commands/verify.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

/** A practice room, and what the three commands answer in it. */
async function auditorsRoom() {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  const key = (await called((io) => station({ room, json: true }, io), cwd)).out;
  return {
    cwd,
    room,
    key: String(JSON.parse(key).key),
    verify: (file?: string, options: Parameters<typeof verify>[1] = {}) =>
      called((io) => verify(file, { room, ...options }, io), cwd),
    receipt: (ticket: string, options: Parameters<typeof receipt>[1] = {}) =>
      called((io) => receipt(ticket, { room, ...options }, io), cwd),
    station: (options: Parameters<typeof station>[0] = {}, pin = '') =>
      called((io) => station({ room, ...options }, io), cwd, undefined, pin),
    keep: (name: string, text: string) => writeFileSync(join(cwd, name), text),
    read: (name: string) => readFileSync(join(cwd, name), 'utf8'),
  };
}

test('a practice room is intact, and says what it is signed with', async () => {
  const { verify, key, station } = await auditorsRoom();
  expect(await verify()).toEqual({
    code: 0,
    err: '',
    out: expect.stringMatching(
      /^The ledger of SEW-1 is intact: 7\d\d entries, 1 checkpoint\.\nThe last checkpoint covers all of them\./,
    ),
  });
  expect((await verify(undefined, { json: true, key })).out).toContain('"intact": true');
  expect((await station()).out).toContain(`Key      ${key}`);
});

test('a customer checks a receipt without the room, and finds it changed', async () => {
  const { verify, receipt, key, keep, read } = await auditorsRoom();
  const written = await receipt('b-1042');
  expect(written).toMatchObject({
    code: 0,
    out: expect.stringMatching(/^B-1042\.receipt: \d+ entries of B-1042, signed over 7\d\d\. Check it with/),
  });
  const elsewhere = { room: '/nowhere', key };
  expect(await verify('B-1042.receipt', elsewhere)).toMatchObject({
    code: 0,
    out: expect.stringMatching(/^The receipt of B-1042 is good: .*\nThe bundle is finished\.\n$/),
  });
  keep('bad.receipt', read('B-1042.receipt').replace('"value":"316"', '"value":"313"'));
  expect(await verify('bad.receipt', elsewhere)).toMatchObject({
    code: 1,
    out: expect.stringMatching(/^The receipt is not good\. Entry \d+ or its path was changed/),
  });
  expect((await verify('bad.receipt', { ...elsewhere, json: true })).out).toContain('"rule": "receipt-path"');
  keep('key.txt', `${key}\n`);
  expect((await verify('B-1042.receipt', { room: '/nowhere', key: 'key.txt' })).code).toBe(0);
});

test('a receipt is never written over another, nor of a ticket that is not there', async () => {
  const { receipt, cwd } = await auditorsRoom();
  await receipt('B-1041');
  const before = readFileSync(join(cwd, 'B-1041.receipt'));
  expect(await receipt('B-1041')).toMatchObject({
    code: 2,
    err: expect.stringMatching(/There is a file B-1041\.receipt already/),
  });
  expect(readFileSync(join(cwd, 'B-1041.receipt'))).toEqual(before);
  expect(await receipt('B-9')).toMatchObject({ code: 2, err: expect.stringContaining('no ticket B-9') });
});

test('a checkpoint kept elsewhere proves that history only grew, for the ledger and for a receipt', async () => {
  const { verify, receipt, station, keep, key, room } = await auditorsRoom();
  keep('kept', (await station({ checkpoint: true })).out);
  await station({ newKey: true, hand: 'Vera' }, '7305\n');
  expect((await verify(undefined, { since: 'kept' })).code).toBe(0);
  await receipt('B-1042', { since: 'kept' });
  const fresh = String(JSON.parse((await station({ json: true })).out).key);
  expect((await verify('B-1042.receipt', { key: fresh })).code).toBe(0);
  expect((await verify(undefined, { since: 'B-1042.receipt' })).code).toBe(0);
  rmSync(join(room, '.walkfoot'), { recursive: true });
  await expect(verify(undefined, { since: 'kept' })).rejects.toThrow(/There is no ledger/);
  expect(key).not.toBe(fresh);
});

test('an edited ledger is found, with the entry', async () => {
  const { verify, room } = await auditorsRoom();
  const db = new DatabaseSync(join(room, '.walkfoot', 'ledger.db'));
  const triggers = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all();
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  db.exec(
    `UPDATE entries SET text = replace(text, '"value":"316"', '"value":"313"') WHERE text LIKE '%"value":"316"%'`,
  );
  for (const { sql } of triggers) db.exec(String(sql));
  db.close();
  expect(await verify()).toMatchObject({
    code: 1,
    out: expect.stringMatching(
      /^Entry \d+ of the ledger of SEW-1 is not as it was written: it does not come to the hash/,
    ),
  });
});

test.each<readonly [string, string | undefined, Parameters<typeof verify>[1], RegExp]>([
  ['no key for a receipt', 'B-1.receipt', {}, /checked with the station’s key/],
  ['a key that is none', undefined, { key: 'SEW-1+nonsense' }, /This is no key/],
  ['a file of a key that is not there', undefined, { key: 'nowhere.txt' }, /nowhere\.txt/],
  ['a checkpoint that is none', undefined, { since: 'notes' }, /notes holds no checkpoint and no receipt/],
  ['letters damaged on the way', undefined, { since: 'damaged' }, /damaged is no text/],
  ['a file that is not there', undefined, { since: 'nowhere' }, /nowhere/],
])('%s: a sentence, exit 2', async (_, file, options, words) => {
  const { verify, keep, cwd } = await auditorsRoom();
  keep('notes', 'milk, eggs\n');
  writeFileSync(join(cwd, 'damaged'), Buffer.from([0x57, 0xff, 0xfe]));
  const answer = await verify(file, options);
  expect(answer).toMatchObject({ code: 2, out: '', err: expect.stringMatching(words) });
  expect(answer.err.trim().split('\n')).toHaveLength(1);
});

test('the station’s key lost, or readable by others, is told, and a new one made by a supervisor only', async () => {
  const { station, room, verify } = await auditorsRoom();
  const file = join(room, '.walkfoot', 'station.key');
  chmodSync(file, 0o644);
  expect(await station({ checkpoint: true }).catch((trouble: Error) => trouble.message)).toMatch(
    /can be read by others/,
  );
  rmSync(file);
  expect(await station({ checkpoint: true }).catch((trouble: Error) => trouble.message)).toMatch(/key is gone/);
  expect((await station()).code).toBe(0);
  expect(await station({ newKey: true })).toMatchObject({ code: 2 });
  expect(await station({ newKey: true, hand: 'Ines' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('a supervisor'),
  });
  expect(existsSync(file)).toBe(false);
  expect((await station({ newKey: true, hand: 'Vera' }, '7305\n')).code).toBe(0);
  expect(await verify()).toMatchObject({
    code: 0,
    out: expect.stringMatching(/2 checkpoints[\s\S]*Signed with SEW-1\+.*\nSigned with SEW-1\+/),
  });
});

test('a pipe, a device or a folder given for a file is refused at once, where reading it would never end, and so is none', async () => {
  const { verify, receipt, key, cwd } = await auditorsRoom();
  spawnSync('mkfifo', [join(cwd, 'pipe')]);
  for (const [file, why] of [
    ['pipe', 'pipe is no file: check its name.'],
    ['/dev/zero', '/dev/zero is no file: check its name.'],
    ['.', '. is no file: check its name.'],
    ['none', 'There is no file none: check its name.'],
  ] as const) {
    const refused = { code: 2, out: '', err: `walkfoot: ${why}\n` };
    expect(await verify(file, { key })).toEqual(refused);
    expect(await verify(undefined, { since: file })).toEqual(refused);
    expect(await verify(undefined, { key: file })).toEqual(refused);
    expect(await receipt('b-1042', { since: file })).toEqual(refused);
  }
});

test('a receipt is good although another program writes between its signature and its proof', async () => {
  const { receipt, verify, room, key } = await auditorsRoom();
  const any = openLedger(join(tempFolder(), 'any.db'), { station: 'SEW-1' });
  const written: LedgerStore = Object.getPrototypeOf(any);
  await any.close();
  const { seal } = written;
  vi.spyOn(written, 'seal').mockImplementationOnce(async function (this: LedgerStore, by) {
    const checkpoint = await seal.call(this, by);
    const noted = { ticket: 'B-1042', nth: 999, set: null, step: null, text: 'meanwhile' };
    await this.append(await this.head(), [
      { at: '2026-11-25T12:00:00.000+01:00', hand: 'OP-02', kind: 'noted', body: noted },
    ]);
    return checkpoint;
  });
  expect(await receipt('B-1042')).toMatchObject({ code: 0, err: '' });
  expect(await verify('B-1042.receipt', { room, key })).toMatchObject({ code: 0 });
});
