import { spawn } from 'node:child_process';
import { expect, test } from 'vitest';
import {
  type Blank,
  blanksOf,
  practiceRoom,
  program,
  quietEnv,
  verasPin,
  walkfoot,
  who,
} from '../playthrough/lining.ts';
import { numbersFrom } from './numbers-from.ts';

const ROUNDS = 50;
const SEED = Number(process.env.KILL_SEED ?? Date.now() % 1_000_000);

test(`the program is killed ${ROUNDS} times in the middle of a bundle (KILL_SEED=${SEED}), and nothing it showed is lost`, async () => {
  const room = practiceRoom();
  const random = numbersFrom(SEED);
  try {
    const blanks = blanksOf(room.folder);
    let ticket = 'B-1047';
    let before = 0;
    let kept = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const shown = await playUntilKilled(room.folder, ticket, blanks.slice(before), Math.floor(random() * 25));
      const checked = who(room.folder, ticket).filter(({ kind }) => kind === 'checked');
      // What was recorded but not yet shown may be there too: one blank at the most.
      expect(checked.length - before, `round ${round}`).toBeGreaterThanOrEqual(shown);
      expect(checked.length - before, `round ${round}`).toBeLessThanOrEqual(shown + 1);
      expect(checked.map(({ point, place, set }) => ({ point, place, set }))).toEqual(
        blanks.slice(0, checked.length).map(({ point, place, set }) => ({ point, place, set })),
      );
      kept += checked.length - before;
      before = checked.length;
      if (before < blanks.length / 2) continue;
      ticket = JSON.parse(walkfoot('ticket', 'LIN-2207', '--room', room.folder, '--json')).ticket;
      before = 0;
    }
    expect(kept).toBeGreaterThan(ROUNDS);
    expect(walkfoot('verify', '--room', room.folder)).toMatch(/^The ledger of SEW-1 is intact/);
  } finally {
    room.remove();
  }
});

/** A PIN takes its time to be compared; killed sooner, no round would ever come past a hold point. */
const PIN_MS = 300;

/**
 * Answers question after question; some milliseconds after the first one is answered the program is killed. Answers how many
 * blanks it had acknowledged by asking for the next.
 */
function playUntilKilled(folder: string, ticket: string, blanks: readonly Blank[], ms: number): Promise<number> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [program, 'sew', ticket, '--hand', 'Ines', '--room', folder], {
      env: quietEnv(),
    });
    let heard = '';
    let answered = 0;
    let asked: 'blank' | 'caution' | 'nothing' = 'nothing';
    child.stdin.on('error', () => {});
    child.stdout.on('data', (data: Buffer) => {
      heard += data.toString();
      if (!heard.endsWith('> ')) return;
      if (heard.endsWith('PIN of Vera > ')) {
        heard = '';
        child.stdin.write(`${verasPin}\n`);
        return;
      }
      if (asked === 'blank') answered += 1;
      const caution = /\(enter: read\) > $/.test(heard);
      heard = '';
      const next = blanks[answered];
      if (!next) return;
      if (asked === 'nothing') setTimeout(() => child.kill('SIGKILL'), ms + (next.kind === 'hold point' ? PIN_MS : 0));
      asked = caution ? 'caution' : 'blank';
      child.stdin.write(`${caution ? '' : next.answer}\n`);
    });
    child.on('close', () => done(answered));
  });
}
