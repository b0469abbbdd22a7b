import fc from 'fast-check';
import { lexer, type Token, type Tokens } from 'marked';
import { expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

/**
 * The points of generated procedures against a second, independent reading: the lexer of `marked`, which shares no code with
 * the parser under the reader. Source of what a task item is: GitHub Flavored Markdown Spec 0.29-gfm, section 5.3.
 */
const words = fc.array(
  fc.constantFrom('raw', 'edges', 'to', 'the', 'line', 'sleeve', 'notch', 'front', 'lining', 'A', '12'),
  { minLength: 1, maxLength: 6 },
);
const ending = fc.constantFrom(
  '',
  ' ____',
  ' ____ mm (312 ±1.5)',
  ' ____ ____ mm (27 +2/-0)',
  ' ____ pcs (22)',
  ' ____ (**match** / darker)',
  ' ____ min (min 10)',
);
const point = fc.tuple(fc.constantFrom('- ', '* ', '+ ', '1. ', '2) '), fc.boolean(), words, ending);
const block = fc.oneof(
  { weight: 4, arbitrary: fc.array(point, { minLength: 1, maxLength: 5 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      'Words of prose.',
      '```\n- [ ] in code\n```',
      '- Cannot be undone',
      '<!-- - [ ] note -->',
      '| a | b |\n|---|---|\n| c | d |',
    ),
  },
);

test('reader and second lexer find the same points in the same order', () => {
  fc.assert(
    fc.property(fc.array(fc.array(block, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 4 }), (steps) => {
      let count = 0;
      const body = steps
        .map((blocks, step) => {
          const parts = blocks.map((part) => {
            if (typeof part === 'string') return part;
            return part
              .map(([bullet, isBold, text, end]) => {
                count += 1;
                const asked = `${text.join(' ')} no${count}`;
                return `${bullet}[ ] ${isBold ? `**${asked}**` : asked}${end}`;
              })
              .join('\n');
          });
          return `## Step ${step + 1}\n\n${parts.join('\n\n')}`;
        })
        .join('\n\n');
      const { procedure } = readProcedure(`---\nprocedure: A\ntitle: B\n---\n\n${body}\n`, 'x.md');
      const ours = procedure.steps.flatMap((step) => step.points.map(({ text }) => text));
      const theirs = tasks(lexer(body)).map((text) =>
        text
          .replace(/ ____.*$/s, '')
          .replaceAll('**', '')
          .trim(),
      );
      expect(ours).toEqual(theirs);
      expect(ours).toHaveLength(count);
    }),
    { numRuns: 400 },
  );
});

function tasks(tokens: readonly Token[]): readonly string[] {
  return tokens.flatMap((token) => {
    if (token.type !== 'list') return [];
    return (token as Tokens.List).items.flatMap((item) =>
      item.task ? [item.text.replace(/^\[ \] +/, '')] : tasks(item.tokens),
    );
  });
}
