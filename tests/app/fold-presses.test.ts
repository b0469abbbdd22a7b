import { EventEmitter } from 'node:events';
import fc from 'fast-check';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { isFolded } from '../../src/app/fold.ts';
import { hearing, modeOf } from '../../src/app/mode.ts';
import type { HandId } from '../../src/base/brand.ts';
import { translate } from '../../src/keys/translate.ts';
import { readKeys } from '../../src/terminal/read-keys.ts';
import { press } from '../screens/lining.ts';
import '../seed.ts';
import { workroom } from './workroom.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
afterEach(() => void vi.useRealTimers());

const POINTS = 12;
const ticks = `---
procedure: T-1
title: Small lining
sets: 1
---

## Lay the pieces out

Face down, marks toward you.

${Array.from({ length: POINTS }, (_, at) => `- [ ] Piece ${at + 1} lies face down`).join('\n')}
- [ ] Place on the rack ____
`;

/** Ines at the folded step, with a keyboard that sends bytes. */
async function folded() {
  const room = await workroom(ticks);
  const program = await room.program();
  await press(program, '"ines" enter "b-1" enter f');
  expect(isFolded(program.app())).toBe(true);
  const source = new EventEmitter();
  const stop = readKeys(
    source,
    (key) => {
      const move = translate(modeOf(program.app()), key);
      if (move) program.tell({ news: 'move', move });
    },
    () => hearing(modeOf(program.app())),
  );
  return {
    stop,
    /** Sends bytes, lets so many milliseconds pass, and answers how many points are confirmed then. */
    async types(bytes: string, ms: number): Promise<number> {
      source.emit('data', Buffer.from(bytes));
      await program.settled();
      vi.advanceTimersByTime(ms);
      await program.settled();
      return (await room.store.read({ kinds: ['checked'], hand: 'OP-02' as HandId })).length;
    },
  };
}

/** A finger needs this long from press to press; a keyboard repeats faster. */
const finger = fc.integer({ min: 101, max: 2500 });

test('at whatever speed a finger presses enter, each press confirms one point and none is lost', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.constantFrom('\r', '\r', '\r', 'f', 'g', '\x1b[B'), finger), {
        minLength: 1,
        maxLength: 30,
      }),
      async (pressed) => {
        const { types, stop } = await folded();
        let enters = 0;
        let confirmed = 0;
        for (const [bytes, ms] of pressed) {
          if (bytes === '\r') enters++;
          if (enters > POINTS) break;
          const now = await types(bytes, ms);
          expect(now - confirmed).toBeLessThanOrEqual(1);
          confirmed = now;
        }
        // The last press may still wait to see whether somebody leans on the key.
        expect(await types('', 200)).toBe(Math.min(enters, POINTS));
        stop();
      },
    ),
    { numRuns: 100 },
  );
});

test('leaning on enter in a folded step confirms one point, however long', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 200, max: 1000 }),
      fc.array(fc.integer({ min: 30, max: 92 }), { minLength: 1, maxLength: 40 }),
      async (delay, repeats) => {
        const { types, stop } = await folded();
        await types('\r', delay);
        for (const ms of repeats) await types('\r', ms);
        // One that comes alone cannot be told from a second press.
        expect(await types('', 1200)).toBe(repeats.length === 1 ? 2 : 1);
        stop();
      },
    ),
    { numRuns: 50 },
  );
});

test('several enters in one chunk, as a paste or a line that stalled brings them, confirm no more than one', async () => {
  const { types, stop } = await folded();
  expect(await types('\r\r\r\r', 500)).toBeLessThanOrEqual(1);
  expect(await types('\x1b[200~\r\r\r\x1b[201~', 500)).toBeLessThanOrEqual(1);
  stop();
});
