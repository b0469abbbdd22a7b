import { join } from 'node:path';
import { bareNode } from './first-frame.ts';
import { inTurn, timed } from './measure.ts';
import { ms, ratioLine } from './print.ts';
import { run } from './run.ts';

/** A command without a screen, in the practice room. */
export async function whoCommand(folder: string): Promise<readonly string[]> {
  const runs = 25;
  const { a, b, ratio } = await inTurn(
    runs,
    () => timed(() => run(['who', 'B-1041', '--room', join(folder, 'room')])),
    bareNode,
  );
  return [ratioLine(`who B-1041, ${ms(a)}`, `bare node -e 0, ${ms(b)}`, ratio, 'at most 2.5', `${runs} pairs`)];
}
