import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { listHands } from '../../src/commands/hand.ts';
import type { Io } from '../../src/commands/io.ts';
import { sew } from '../../src/commands/sew.ts';
import { verify } from '../../src/commands/verify.ts';
import { who } from '../../src/commands/who.ts';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { called } from '../commands/demo-room.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { numbersFrom } from './numbers-from.ts';
import { ledgerOf, newRoom } from './practice-room.ts';

const PAGE = 4096;
/** The same each time, so that what is red is red for everybody. */
const SEED = Number(process.env.PAGE_SEED ?? 20_261_125);

const asked = {
  'who did one bundle': (room: string) => (io: Io) => who('B-1042', { room, json: true }, io),
  'who did all of it': (room: string) => (io: Io) => who(undefined, { room, json: true }, io),
  'who is in the room': (room: string) => (io: Io) => listHands({ room, json: true }, io),
  'what comes next': (room: string) => (io: Io) => sew('B-1041', { room, hand: 'Ines', plain: true }, io),
} as const;

/** Ways in which a page of the file can be wrong. */
const ways: Readonly<Record<string, (page: Buffer, random: () => number) => void>> = {
  'eight bytes changed': (page, random) => {
    for (let n = 0; n < 8; n++) {
      const at = Math.floor(random() * page.length);
      page[at] = (page[at] ?? 0) ^ (1 + Math.floor(random() * 255));
    }
  },
  emptied: (page) => page.fill(0),
  'filled with something else': (page, random) => {
    for (const at of page.keys()) page[at] = Math.floor(random() * 256);
  },
};

/** What a command answers, a trouble being told as the program tells it. */
async function answerOf(room: string, call: (io: Io) => Promise<number>) {
  try {
    return await called(call, room);
  } catch (error) {
    if (!(error instanceof StoreTrouble)) throw error;
    return { code: 2, out: '', err: `walkfoot: ${error.message}\n` };
  }
}

test(`whichever page of the ledger is damaged, each command answers right, tells of it in a sentence, or the checking does (PAGE_SEED=${SEED})`, async () => {
  // A dialogue listens for signals until its process ends, and here hundreds are held in one.
  process.setMaxListeners(0);
  const room = await newRoom(tempFolder());
  const file = ledgerOf(room);
  const whole = readFileSync(file);
  const random = numbersFrom(SEED);
  const put = (bytes: Buffer): void => {
    for (const end of ['-wal', '-shm']) rmSync(file + end, { force: true });
    writeFileSync(file, bytes);
  };
  const of = async (call: (room: string) => (io: Io) => Promise<number>, bytes: Buffer) => {
    put(bytes);
    return answerOf(room, call(room));
  };
  const right = new Map<string, string>();
  for (const [question, call] of Object.entries(asked)) {
    const { code, out } = await of(call, whole);
    expect(code, question).toBe(0);
    right.set(question, out);
  }

  let told = 0;
  for (let page = 0; page * PAGE < whole.length; page++) {
    for (const [way, spoil] of Object.entries(ways)) {
      const bytes = Buffer.from(whole);
      spoil(bytes.subarray(page * PAGE, (page + 1) * PAGE), random);
      const checked = await of((folder) => (io) => verify(undefined, { room: folder }, io), bytes);
      for (const [question, call] of Object.entries(asked)) {
        const where = `page ${page} ${way}: ${question}`;
        const { code, out, err } = await of(call, bytes);
        if (code !== 0) {
          expect(err, where).toMatch(/^walkfoot: \S[^\n]*[^.\n]\.\n$/);
          told += 1;
        } else if (out !== right.get(question)) expect(checked.code, where).not.toBe(0);
      }
    }
  }
  expect(told).toBeGreaterThan(100);
  put(whole);
  expect((await answerOf(room, (io) => verify(undefined, { room }, io))).code, 'put right again').toBe(0);
});
