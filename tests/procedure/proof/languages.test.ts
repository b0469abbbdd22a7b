import { expect, test } from 'vitest';
import { proofread } from '../../../src/procedure/proofread.ts';

const sheet = (step: string): string => `---\nprocedure: A\ntitle: B\n---\n\n${step}`;
const rules = (text: string, file: string): readonly string[] => proofread(text, file).findings.map(({ rule }) => rule);

test('a Spanish sheet is proofread with Spanish words', () => {
  const good = sheet(
    '## Cosa las mangas\n\n> **WARNING** Aguja. Atraviesa el dedo. Retire el pie del pedal.\n\n![Mangas](../media/a.svg)\n\n- [ ] Mangas planas\n',
  );
  expect(rules(good, 'A.es.md')).toEqual(['caution-reading-unsaid']);
  expect(rules(good, 'A.md')).toContain('step-begins-with-verb');
});

test.each([
  ['step-begins-with-verb', '## Las mangas\n\n- [ ] Mangas planas\n'],
  ['ambiguous-word', '## Cosa las mangas\n\nCosa aproximadamente en la línea.\n\n- [ ] Mangas planas\n'],
  [
    'injury-not-named',
    '## Cosa\n\n> **WARNING** Vinilo. El agujero queda. Mire antes.\n\n![A](../media/a.svg)\n\n- [ ] Mangas planas\n',
  ],
  [
    'notice-with-injury',
    '## Cosa\n\n> **NOTICE** Tijeras. Pinchan el dedo. Cierre las tijeras.\n\n- [ ] Mangas planas\n',
  ],
  ['hazard-without-caution', '## Cosa\n\n- Seams: A, stitch 301 at 4.0 mm\n\n- [ ] Mangas planas\n'],
])('in Spanish: %s', (rule, step) => expect(rules(sheet(step), 'A.es.md')).toContain(rule));
