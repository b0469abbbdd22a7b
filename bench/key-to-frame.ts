import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { terminalEnv } from './first-frame.ts';
import { percentile, spread } from './measure.ts';
import { program } from './run.ts';

/**
 * From a key written into the pseudo-terminal to the first byte of the frame it caused, at 24 × 80 on a step of 30 points:
 * digits typed into a field, and the enter key, which also makes an entry durable first.
 */
export async function keyToFrame(folder: string): Promise<readonly string[]> {
  const file = join(folder, 'T-30.md');
  const points = Array.from({ length: 30 }, (_, i) => `- [ ] Width at mark ${i + 1} ____ mm (312 ±1.5)`).join('\n');
  writeFileSync(
    file,
    `---\nprocedure: T-30\ntitle: Thirty widths\nsets: 2\n---\n\n# Thirty widths\n\n## Measure them all\n\n${points}\n`,
  );
  const { digits, enters } = await typeThrough(file);
  return [line('key to frame, a digit in a field', digits), line('key to frame, enter with its entry', enters)];
}

function line(what: string, took: readonly number[]): string {
  const sorted = [...took].sort((a, b) => a - b);
  const { median, most } = spread(sorted);
  const p99 = percentile(sorted, 0.99);
  return `${what}, p99 ${p99.toFixed(1)} ms | one frame at 60 Hz, 16.7 ms | ${(p99 / (1000 / 60)).toFixed(2)} (median ${median.toFixed(1)} ms, most ${most.toFixed(1)} ms) | at most 1 | ${took.length} keys`;
}

async function typeThrough(
  file: string,
): Promise<{ readonly digits: readonly number[]; readonly enters: readonly number[] }> {
  const child = spawn(process.execPath, [program, 'rehearse', file], { cols: 80, rows: 24, env: terminalEnv() });
  let heard: (() => void) | undefined;
  child.onData(() => heard?.());
  await pause(2500);
  const digits: number[] = [];
  const enters: number[] = [];
  for (let i = 0; i < 50; i++) {
    // The first character waits to see whether a scanner follows, so it is not counted.
    await press('3');
    for (const key of ['1', '2', '.', '5', BACKSPACE, '4', BACKSPACE, BACKSPACE]) digits.push(await press(key));
    // Enter sooner after another enter waits to see whether somebody leans on the key.
    await pause(1200);
    enters.push(await press('\r'));
  }
  child.write('\x03');
  await pause(300);
  child.kill();
  return { digits, enters };

  async function press(key: string): Promise<number> {
    await pause(70);
    return new Promise((done) => {
      const start = performance.now();
      heard = () => {
        heard = undefined;
        done(performance.now() - start);
      };
      child.write(key);
    });
  }
}

const BACKSPACE = '\x7f';

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
