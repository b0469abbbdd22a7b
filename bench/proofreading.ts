import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { lexer } from 'marked';
import { proofread } from '../src/procedure/proofread.ts';
import { inTurn, timed } from './measure.ts';
import { ms, ratioLine } from './print.ts';

/** A thousand procedures read and proofread by every rule, against lexing the same texts as Markdown and nothing more. */
export async function proofreading(): Promise<readonly string[]> {
  const runs = 5;
  const texts = ['LIN-2207', 'CUS-0412', 'HOD-0931'].map((id) =>
    readFileSync(resolve(import.meta.dirname, `../procedures/${id}.md`), 'utf8'),
  );
  // A different id each time, so that nothing can be kept from one to the next.
  const many = Array.from({ length: 1000 }, (_, i) =>
    (texts[i % texts.length] ?? '').replace(/^procedure: .*/m, `procedure: T-${i}`),
  );
  const { a, b, ratio } = await inTurn(
    runs,
    () => timed(() => many.forEach((text, i) => void proofread(text, `T-${i}.md`))),
    () => timed(() => many.forEach((text) => void lexer(text))),
  );
  return [
    ratioLine(
      `proofread 1,000 procedures, ${ms(a)}`,
      `marked lexing alone, ${ms(b)}`,
      ratio,
      'at most 3',
      `${runs} pairs`,
    ),
  ];
}
