import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { renameSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { asRow, blanksOf, linesOf, practiceRoom, program, quietEnv, verasPin, type WhoRow, who } from './lining.ts';

/** Sends the lines to `walkfoot sew` through a pipe, all at once, and answers what it printed and how it ended. */
function sew(
  folder: string,
  lines: readonly string[],
): Promise<{ readonly out: string; readonly code: number | null }> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', folder], {
      env: quietEnv(),
    });
    let out = '';
    child.stdout.on('data', (data) => (out += data));
    child.on('close', (code) => done({ out, code }));
    child.stdin.end(lines.map((line) => `${line}\n`).join(''));
  });
}

test('the lining as a dialogue through a pipe: the same ledger as by keys', async () => {
  const room = practiceRoom();
  try {
    const blanks = blanksOf(room.folder);
    const expected: Partial<WhoRow>[] = [];
    const wrongAt = blanks.findIndex(
      ({ set, step, point, place }) => set === 1 && step === 4 && point.includes('seam on C') && place === 1,
    );
    const holdAt = blanks.findIndex(({ set, step }) => set === 1 && step === 5);
    const before: string[] = [];
    const after: string[] = ['settle', 'Vera', 'rework', '', 'mark drawn', verasPin];
    for (const [index, blank] of blanks.entries()) {
      const lines = index < holdAt ? before : after;
      if (index === wrongAt) {
        lines.push('316');
        expected.push(asRow(blank, '316'));
      }
      lines.push(...linesOf(blank));
      expected.push(asRow(blank));
    }

    const first = await sew(room.folder, [...before, 'hold lamp mark missing', 'leave']);
    expect(first.out).toContain('OUT OF LIMIT: 316 mm is 2.5 mm over 313.5.');
    expect(first.code).toBe(1);
    const second = await sew(room.folder, [...after, '3', '2', '']);
    expect(second.out).toContain('There should be 2 good sets, and you counted 3');
    expect(second.out).toContain('Finished: 2 of 2 good');
    expect(second.code).toBe(0);
    expect(who(room.folder, 'B-1047').filter(({ kind }) => kind === 'checked')).toMatchObject(expected);
  } finally {
    room.remove();
  }
});

test.each<readonly [string, (child: ChildProcessWithoutNullStreams) => void]>([
  ['whoever reads the output goes away', (child) => child.stdout.destroy()],
  ['it is told to end', (child) => child.kill('SIGTERM')],
  ['it is interrupted', (child) => child.kill('SIGINT')],
])('%s: the bundle is left, and the program ends without a word', async (_, end) => {
  const room = practiceRoom();
  try {
    const child = spawn(process.execPath, [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', room.folder], {
      env: quietEnv(),
    });
    let err = '';
    child.stderr.on('data', (data) => (err += data));
    child.stdin.on('error', () => {});
    await new Promise((heard) => child.stdout.once('data', heard));
    const ended = new Promise((done) => child.on('exit', done));
    end(child);
    child.stdin.write('22\n\n');
    expect(await ended).toBe(0);
    expect(err).toBe('');
    expect(who(room.folder, 'B-1047').at(-1)?.kind).toBe('paused');
  } finally {
    room.remove();
  }
});

test('the ledger taken away in mid-dialogue: one sentence at once, no question more, exit 2', async () => {
  const room = practiceRoom();
  try {
    const child = spawn(process.execPath, [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', room.folder], {
      env: quietEnv(),
    });
    let out = '';
    let err = '';
    child.stdout.on('data', (data) => (out += data));
    child.stderr.on('data', (data) => (err += data));
    child.stdin.on('error', () => {});
    await vi.waitFor(() => expect(out).toMatch(/> $/), 10_000);
    renameSync(join(room.folder, '.walkfoot/ledger.db'), join(room.folder, 'elsewhere.db'));
    const before = out.length;
    child.stdin.write('22\n');
    expect(await new Promise((done) => child.on('close', done))).toBe(2);
    expect(err).toMatch(/^walkfoot: The ledger .* was moved or replaced .*\n$/);
    expect(out.slice(before)).not.toContain('> ');
  } finally {
    room.remove();
  }
});
