import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { compareSheet, inLanguage } from '../../src/procedure/sheet.ts';

const textOf = (name: string): string => readFileSync(new URL(`../../procedures/${name}`, import.meta.url), 'utf8');
const main = textOf('LIN-2207.md');
const spanish = textOf('LIN-2207.es.md');
const read = (text: string) => readProcedure(text, 'LIN-2207.es.md').procedure;
const compare = (text: string) => compareSheet(read(main), read(text), 'procedures/LIN-2207.es.md');

test('the Spanish sheet asks what its main text asks', () => expect(compare(spanish)).toEqual([]));

test.each<readonly [string, string, string, RegExp]>([
  ['a number in the words', '360 mm', '350 mm', /the main text has 360 here, and this sheet 350/],
  ['a limit', '(312 ±1.5 of', '(312 ±2.5 of', /limit of point 2: the main text has 310\.5 to 313\.5 mm here/],
  [
    'a length of the drawing',
    'of seam-D1–A-aft)',
    'of seam-D1–B-front)',
    /lengths of the drawing of point 2: the main text has seam-D1–A-aft here, and this sheet seam-D1–B-front/,
  ],
  ['a length of the drawing less', ' of mark-E–B-front)', ')', /lengths of the drawing of point 1: .* this sheet none/],
  [
    'edges that are joined',
    'joins A-aft to B-front',
    'joins A-aft to B-aft',
    /joined edges: the main text has A-aft to B-front/,
  ],
  [
    'ease',
    'joins A-aft to B-front',
    'joins A-aft to B-front, ease 2 mm',
    /joined edges: .* this sheet A-aft to B-front, ease 2/,
  ],
  ['a unit', '____ st/100mm (25 ±2)', '____ st/25mm (25 ±2)', /unit of point 3: .*st\/100mm/],
  ['a point less', '- [ ] Rollo del vinilo liso ____\n', '', /points: the main text has 6 here, and this sheet 5/],
  ['a kind of point', '- [ ] Rollo del vinilo liso ____', '- [ ] Rollo del vinilo liso', /kind of point 3: .*written/],
  ['what is acceptable', '(**igual** / más claro', '(igual / **más claro**', /acceptable options of point 5/],
  ['a signal word', '> **CAUTION** Tijeras', '> **WARNING** Tijeras', /cautions: the main text has CAUTION/],
  [
    'a caution less',
    '> **NOTICE** Pespunte. Se ve en la cara y no se puede descoser.\n> Ajusta 5,0 mm y pruébalo antes en el retal.\n',
    '',
    /cautions: the main text has WARNING, NOTICE/,
  ],
  ['a fact', '- Cannot be undone\n', '', /cannot be undone/],
  ['a stitch', 'stitch 301 at 5.0 mm', 'stitch 301 at 4.0 mm', /seams/],
  [
    'a way back',
    '- If out: back to Coser la prueba en un retal',
    '- If out: back to Contar las piezas',
    /back to step 2 here, and this sheet back to step 1/,
  ],
  [
    'a number of the way out',
    '- If out: ',
    '- If out: 3 ',
    /numbers of the way out: the main text has none here, and this sheet 3/,
  ],
  [
    'a skill',
    'Needs skill: top-stitch vinyl',
    'Needs skill: pespunte',
    /skill needed: the main text has top-stitch vinyl/,
  ],
  ['a picture', 'lining.svg#join-detail', 'lining.svg#A', /pictures/],
  ['a piece of the kit', '  G: cinta de popa\n', '', /Kit/],
  ['the sets', 'sets: 2', 'sets: 3', /Sets: the main text has 2/],
  [
    'an id',
    '- [ ] Rollo del vinilo liso ____',
    '- [ ] Rollo del vinilo liso ____ {#rollo}',
    /id of point 3: the main text has roll-of-the-plain-vinyl here, and this sheet rollo/,
  ],
  ['the id of a step', '## Unir A con B', '## Unir A con B {#unir}', /id: the main text has join-/],
  ['another procedure', 'procedure: LIN-2207', 'procedure: LIN-2208', /Name of the procedure/],
])('a sheet that has it otherwise is found out, at its line: %s', (_, from, to, said) => {
  expect(spanish).toContain(from);
  const findings = compare(spanish.replace(from, to));
  expect(findings.map(({ message }) => message).join('\n')).toMatch(said);
  for (const { severity, line } of findings) {
    expect(severity).toBe('error');
    expect(line).toBeGreaterThan(0);
  }
});

test('steps in another order are found out', () => {
  const [first = '', second = ''] = ['## Unir A con B', '## Unir B con C'].map((head) => {
    const from = spanish.indexOf(head);
    return spanish.slice(from, spanish.indexOf('\n## ', from + 4) + 1);
  });
  expect(compare(spanish.replace(first + second, second + first)).length).toBeGreaterThan(2);
});

test('whatever number of the sheet is changed, it is found out', () => {
  const body = spanish.indexOf('# Forro');
  const places = [...spanish.matchAll(/\d+/g)].map(({ index }) => index).filter((index) => index > body);
  fc.assert(
    fc.property(fc.constantFrom(...places), fc.integer({ min: 1, max: 9 }), (at, by) => {
      const digit = (Number(spanish[at]) + by) % 10;
      const text = `${spanish.slice(0, at)}${digit}${spanish.slice(at + 1)}`;
      const { procedure, findings } = readProcedure(text, 'LIN-2207.es.md');
      const wrong = findings.some(({ severity }) => severity === 'error');
      expect(wrong || compareSheet(read(main), procedure, 'x.es.md').length > 0, text.slice(at - 40, at + 20)).toBe(
        true,
      );
    }),
    { numRuns: 200 },
  );
});

test('a sheet gives its words to what the main text asks, and nothing else', () => {
  const played = inLanguage(read(main), read(spanish));
  const { steps } = read(main);
  expect(played.steps.map(({ id }) => id)).toEqual(steps.map(({ id }) => id));
  expect(played.steps[0]?.title).toBe('Contar las piezas');
  for (const [index, step] of played.steps.entries())
    for (const [at, point] of step.points.entries()) {
      const asked = steps[index]?.points[at];
      expect({ ...point, text: '', options: [] }).toEqual({ ...asked, text: '', options: [] });
    }
  expect(played.kit.map(({ id, count, side }) => [id, count, side])).toEqual(
    read(main).kit.map(({ id, count, side }) => [id, count, side]),
  );
});
