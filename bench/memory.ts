import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type IPty, spawn } from '@lydell/node-pty';
import { terminalEnv } from './first-frame.ts';
import { spread } from './measure.ts';
import { ratioLine } from './print.ts';
import { program } from './run.ts';

/** Resident memory while a bundle is played, against an Ink program that shows one word. */
export async function memory(folder: string): Promise<readonly string[]> {
  const runs = 5;
  const ratios: number[] = [];
  const sizes: number[] = [];
  for (let i = 0; i < runs; i++) {
    const playing = await resident(
      [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', join(folder, 'room')],
      'LIN-2207',
      '\x03',
    );
    const empty = await resident([resolve(import.meta.dirname, 'empty-ink.js')], 'empty', '\x03');
    ratios.push(playing / empty);
    sizes.push(playing / 1024);
  }
  const size = spread(sizes).median.toFixed(0);
  return [
    ratioLine(
      `resident memory while playing, ${size} MiB`,
      'an Ink program that shows one word',
      spread(ratios),
      'at most 1.5',
      `${runs} pairs`,
    ),
  ];
}

/** KiB of resident memory a second after the screen shows `word`. */
function resident(args: readonly string[], word: string, end: string): Promise<number> {
  return new Promise((done) => {
    const child: IPty = spawn(process.execPath, [...args], {
      cols: 80,
      rows: 24,
      env: { ...terminalEnv(), NODE_ENV: 'production' },
    });
    let seen = '';
    let kib = 0;
    let waiting = false;
    child.onData((data) => {
      seen += data;
      if (waiting || !seen.includes(word)) return;
      waiting = true;
      setTimeout(() => {
        kib = Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1] ?? 0);
        child.write(end);
        child.kill('SIGTERM');
      }, 1000);
    });
    child.onExit(() => done(kib));
  });
}
