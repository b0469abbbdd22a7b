import { drawInCharacters } from '../src/picture/draw-in-characters.ts';
import { fragments } from '../tests/picture/fragments.ts';
import { readSample } from '../tests/picture/read-sample.ts';
import { spread, timed } from './measure.ts';
import { ms, ratioLine } from './print.ts';

/** Milliseconds after which a hand notices a wait. */
const NOTICED = 50;

/** Every picture of the practice room's procedures, from its file to the characters of 60 columns by 20 rows, each once. */
export async function pictures(): Promise<readonly string[]> {
  const times: number[] = [];
  for (const [name, broughtOut] of fragments()) {
    const draw = () => drawInCharacters(readSample(name), { columns: 60, rows: 20 }, { broughtOut, sewn: [] });
    times.push(await timed(draw));
  }
  const what = `a picture read and drawn in 60 × 20 characters, ${ms(spread(times))}`;
  const ratio = spread(times.map((time) => time / NOTICED));
  return [ratioLine(what, `${NOTICED} ms`, ratio, 'at most 1', `${times.length} pictures`)];
}
