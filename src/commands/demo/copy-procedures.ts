import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { languages } from '../../base/language.ts';
import { CUS, CUT, HOD, LIN } from './tickets.ts';

/** Copies the practice procedures, how to write one, and the pictures they show, from one folder with `procedures/` and `media/` to another. */
export function copyProcedures(from: string, to: string): void {
  const texts = [LIN, CUS, HOD, CUT].flatMap((each) => [each, ...languages.map((language) => `${each}.${language}`)]);
  const needed = new Set<string>([LIN, CUS, HOD, CUT]);
  for (const each of [...texts, 'README']) {
    const name = join('procedures', `${each}.md`);
    if (!existsSync(join(from, name)) && !needed.has(each)) continue;
    copyFileSync(join(from, name), join(to, name));
    const shown = readFileSync(join(to, name), 'utf8').matchAll(/\(\.\.\/(media\/[\w.-]+)/g);
    for (const picture of new Set(Array.from(shown, ([, path = '']) => path)))
      if (existsSync(join(from, picture))) copyFileSync(join(from, picture), join(to, picture));
  }
}
