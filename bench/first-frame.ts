import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { inTurn } from './measure.ts';
import { ms, ratioLine } from './print.ts';
import { program, runNode } from './run.ts';

/** From the start of the process to the station's first whole frame in a real pseudo-terminal, against a Node that does nothing. */
export async function firstFrame(folder: string): Promise<readonly string[]> {
  const runs = 15;
  const { a, b, ratio } = await inTurn(
    runs,
    () => untilFrame(join(folder, 'room')),
    () => bareNode(),
  );
  return [
    ratioLine(`first frame of the station, ${ms(a)}`, `bare node -e 0, ${ms(b)}`, ratio, 'at most 8', `${runs} pairs`),
  ];
}

export async function bareNode(): Promise<number> {
  const start = performance.now();
  await runNode(['-e', '0']);
  return performance.now() - start;
}

function untilFrame(room: string): Promise<number> {
  return new Promise((done) => {
    const start = performance.now();
    const child = spawn(process.execPath, [program, '--room', room], { cols: 80, rows: 24, env: terminalEnv() });
    let seen = '';
    let took = 0;
    child.onData((data) => {
      seen += data;
      // The legend is the last row of the frame.
      if (took === 0 && seen.includes('sign on')) {
        took = performance.now() - start;
        child.write('\x03');
      }
    });
    child.onExit(() => done(took));
  });
}

/** CI in the environment would make the screen library think that nobody looks. */
export function terminalEnv(): Record<string, string> {
  const { CI: _, NODE_ENV: __, ...rest } = process.env;
  return { ...(rest as Record<string, string>), TERM: 'xterm-256color' };
}
