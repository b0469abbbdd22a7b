import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../../src/drawing/read-drawing.ts';
import { RULES } from '../../../src/procedure/proof/rules.ts';
import { proofread } from '../../../src/procedure/proofread.ts';
import { svg } from '../../drawing/svg.ts';
import { wrap } from '../wrap.ts';

/** Other rules find what they find in texts of three lines. */
const NAMES = new Set(RULES.flatMap(({ name, drawing }) => (drawing ? [name] : [])));

/** What the rules on drawings say of a text, with its drawings by their addresses. */
const findings = (text: string, drawings: Readonly<Record<string, string>>) =>
  proofread(wrap(text), 'a.md', (address) => {
    const drawing = drawings[address];
    return drawing === undefined ? undefined : readDrawing(svg(drawing), address);
  }).findings.filter(({ rule }) => NAMES.has(rule));
const rules = (text: string, drawing: string): readonly string[] =>
  findings(text, { '../media/a.svg': drawing }).map(({ rule }) => rule);

const LINES = '<line id="a" x2="9"/><line id="b" y1="36.4" x2="9" y2="36.4"/>';
const asked = (limit: string, unit = 'mm', picture = '![Lines](../media/a.svg)'): string =>
  `${picture}\n\n- [ ] Spacing at the front ____ ${unit} (${limit} of a–b)`;

describe('a limit against the drawing', () => {
  test.each([
    ['36 ±2', 'mm'],
    ['36.4 ±2', 'mm'],
    ['36.40 ±2', 'mm'],
    ['3.64 ±0.1', 'cm'],
    ['3.6 ±0.1', 'cm'],
    ['36 ±0.4', 'mm'],
    ['36', 'mm'],
    ['36 +2/-0', 'mm'],
    ['1.43 ±0.1', 'in'],
    ['1 7/16 ±1/16', 'in'],
    ['1½ ±1/4', 'in'],
    ['36 to 40', 'mm'],
    ['max 36.4', 'mm'],
    ['min 36.4', 'mm'],
  ])('%s %s is what is drawn, as it is written', (limit, unit) => expect(rules(asked(limit, unit), LINES)).toEqual([]));

  test.each([
    ['37 ±2', 'mm'],
    ['36.3 ±2', 'mm'],
    ['36.6 ±2', 'mm'],
    ['36.0 ±2', 'mm'],
    ['36 ±0.3', 'mm'],
    ['3.5 ±0.1', 'cm'],
    ['36.4 ±2', 'in'],
    ['1 3/16 ±1/16', 'in'],
    ['2 ±1/4', 'in'],
    ['37 to 40', 'mm'],
    ['max 36', 'mm'],
    ['min 37', 'mm'],
  ])('%s %s is not', (limit, unit) => expect(rules(asked(limit, unit), LINES)).toEqual(['nominal-unlike-drawing']));

  test('both numbers are in the sentence, in the unit of the blank', () => {
    const [found] = findings(asked('3.5 ±0.1', 'cm'), { '../media/a.svg': LINES });
    expect(found?.message).toBe('The limit says 3.5 ±0.1, and a–b in ../media/a.svg is 3.64 cm.');
  });

  test('each of several lengths is held against it, and each place of a distance', () => {
    const slanted = '<line id="a" x2="90"/><line id="b" x1="10" y1="30" x2="80" y2="32"/>';
    expect(rules(asked('30 ±2'), slanted)).toEqual(['nominal-unlike-drawing']);
    const sizes = '![A](../media/a.svg)\n\n- [ ] Size of A ____ ____ mm (40 ±2 of A width, A depth)';
    expect(rules(sizes, '<rect id="A" width="40" height="40"/>')).toEqual([]);
    expect(rules(sizes, '<rect id="A" width="40" height="41"/>')).toEqual(['nominal-unlike-drawing']);
  });

  test('is held against the drawing of its own step first, and then against any that is shown', () => {
    const two = `## One\n\n${asked('36 ±2', 'mm', '![Lines](../media/b.svg)')}\n\n## Two\n\n${asked('36 ±2')}\n`;
    const other = LINES.replaceAll('36.4', '50');
    expect(findings(two, { '../media/a.svg': LINES, '../media/b.svg': other }).map(({ line }) => line)).toEqual([14]);
    expect(findings(two, { '../media/a.svg': LINES, '../media/b.svg': '' })).toEqual([]);
  });

  test('a drawing that is not to scale, or none at all, cannot be measured, and the finding says so', () => {
    const pixels = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">${LINES}</svg>`;
    expect(findings(asked('36 ±2'), { '../media/a.svg': pixels }).map(({ message }) => message)).toEqual([
      '../media/a.svg cannot be measured.',
    ]);
    expect(findings(asked('36 ±2'), {}).map(({ message }) => message)).toEqual([
      'No drawing is shown in which this could be measured.',
    ]);
    // Said once, however many limits are of it.
    const twice = `${asked('36 ±2')}\n- [ ] Spacing at the back ____ mm (36 ±2 of b–a)`;
    expect(findings(twice, { '../media/a.svg': pixels })).toHaveLength(1);
    expect(findings(twice.replaceAll('a–b', 'a–c').replace('b–a', 'c–b'), { '../media/a.svg': LINES })).toHaveLength(2);
  });

  test('where drawings are out of reach nothing is said', () =>
    expect(proofread(wrap(asked('99 ±2')), 'a.md').findings.filter(({ rule }) => NAMES.has(rule))).toEqual([]));
});

describe('seams and edges', () => {
  const SHOWN = '![It](../media/a.svg)\n\n- [ ] Flat';
  const SEAM = '<g id="ST"><line id="seam-ST" class="seam" x2="9"/></g>';

  test('a group that is sewn has all its seams sewn; a text that names none sews none', () => {
    expect(rules(`- Seams: ST\n\n${SHOWN}`, SEAM)).toEqual([]);
    expect(rules(`- Seams: seam-ST\n\n${SHOWN}`, SEAM)).toEqual([]);
    expect(rules(SHOWN, SEAM)).toEqual([]);
  });

  test('each seam of a step that no drawing has is told', () =>
    expect(findings(`- Seams: SU ST SV\n\n${SHOWN}`, { '../media/a.svg': SEAM }).map(({ found }) => found)).toEqual([
      'SU',
      'SV',
    ]));

  test('a drawing without a seam does not say which seams there are', () =>
    expect(rules(`- Seams: ST\n\n${SHOWN}`, '<line id="x" x2="9"/>')).toEqual([]));

  const edge = (id: string, y: number, length: number, notches: readonly number[]): string =>
    `<line id="${id}" class="edge" y1="${y}" x2="${length}" y2="${y}"/>${notches
      .map((x, i) => `<path id="notch-${id}-${i}" class="notch" d="M${x - 2} ${y}l2 2l2 -2"/>`)
      .join('')}`;
  const join = (more: string): string => `- Seams: s, joins a to b${more}\n\n${SHOWN}`;
  const seam = '<line id="s" class="seam" x2="9"/>';

  test('edges that are drawn where nothing can be measured are not asked for again', () => {
    const drawn = edge('a', 0, 90, []) + edge('b', 20, 90, []) + seam;
    const said = (drawing: string): readonly unknown[] =>
      findings(join(''), { '../media/a.svg': drawing }).flatMap(({ rule, message, mend }) =>
        rule === 'joined-edge-missing' ? [[message, mend]] : [],
      );
    const mend = 'Mend what is said of it, or leave the join out.';
    for (const drawing of [
      `<!DOCTYPE svg>${svg(drawn)}`,
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">${drawn}</svg>`,
    ])
      expect(said(drawing)).toEqual([['../media/a.svg cannot be measured.', mend]]);
    const none = ['No drawing that is shown has both a and b.', expect.stringContaining('Draw both edges')];
    expect(said(seam)).toEqual([none]);
  });

  test('edges of one length, but with their notches apart, do not fit', () => {
    const shifted = edge('a', 0, 90, [30]) + edge('b', 20, 90, [33]) + seam;
    const [found] = findings(join(''), { '../media/a.svg': shifted });
    expect(found?.rule).toBe('joined-edges-unlike');
    expect(found?.message).toBe('From the start to notch-a-0, a is 30 mm and b is 33 mm; the ease is 0 mm.');
    expect(rules(join(', ease 3 mm'), shifted)).toEqual([]);
    expect(rules(join(', ease 2.9 mm'), shifted)).toEqual(['joined-edges-unlike']);
  });

  test('half a millimetre is lost in drawing', () => {
    expect(rules(join(''), edge('a', 0, 90, []) + edge('b', 20, 90.5, []) + seam)).toEqual([]);
    expect(rules(join(''), edge('a', 0, 90, []) + edge('b', 20, 90.6, []) + seam)).toEqual(['joined-edges-unlike']);
  });

  test('edges are looked for in the drawing of their own step first', () => {
    const step = (name: string, picture: string) =>
      `## Join ${name}\n\n- Seams: s, joins a to b\n\n![It](../media/${picture}.svg)\n\n- [ ] Flat\n`;
    const fit = edge('a', 0, 90, [30]) + edge('b', 20, 90, [30]) + seam;
    const drawings = { '../media/a.svg': fit, '../media/b.svg': fit.replace('x2="90" y2="20"', 'x2="95" y2="20"') };
    const found = findings(`${step('one', 'a')}\n${step('two', 'b')}`, drawings);
    expect(found.map(({ rule, line }) => `${rule} ${line}`)).toEqual(['joined-edges-unlike 20']);
  });

  test('a notch that the other edge does not have is told, and so is an edge that is not drawn', () => {
    const uneven = edge('a', 0, 90, [30]) + edge('b', 20, 90, []) + seam;
    const [found] = findings(join(''), { '../media/a.svg': uneven });
    expect(found?.message).toBe('a has 1 notch and b has 0 notches.');
    expect(found?.mend).toBe('Draw a notch on both for each place that meets.');
    expect(rules(join(''), edge('a', 0, 90, []) + seam)).toEqual(['joined-edge-missing']);
  });
});

describe('the kit', () => {
  const kit = (pieces: string): string =>
    `---\nprocedure: L-1\ntitle: L\nkit:\n${pieces}\n---\n\n## Count\n\n![It](../media/a.svg)\n\n- [ ] Counted\n`;
  const piece = (id: string, x = 0): string => `<rect id="${id}" class="piece" x="${x}" width="9" height="9"/>`;

  test('a drawing without a piece does not say which pieces there are', () =>
    expect(rules(kit('  A: panel'), '<rect id="A" width="9" height="9"/>')).toEqual([]));

  test('a piece may be drawn once however often it is cut, or as often as it is cut', () => {
    expect(rules(kit('  A: panel × 2'), piece('A'))).toEqual([]);
    expect(rules(kit('  A: panel × 2'), `<g id="A"><g>${piece('A1')}</g></g>`)).toEqual([
      'kit-piece-not-drawn',
      'drawn-piece-not-in-kit',
    ]);
    const group = (count: number): string =>
      `<g id="A">${'<rect class="piece" width="9" height="9"/>'.repeat(count)}</g>`;
    expect(rules(kit('  A: panel × 2'), group(2))).toEqual([]);
    expect(rules(kit('  A: panel × 3'), group(2))).toEqual(['kit-count-unlike-drawing']);
    expect(rules(kit('  A: panel'), group(2))).toEqual(['kit-count-unlike-drawing']);
  });

  test('a piece that no kit has is told once', () => {
    expect(rules(kit('  A: panel'), piece('A') + piece('B', 20))).toEqual(['drawn-piece-not-in-kit']);
    expect(
      rules(kit('  A: panel'), `${piece('A')}<g id="B">${'<rect class="piece" width="9" height="9"/>'.repeat(2)}</g>`),
    ).toEqual(['drawn-piece-not-in-kit']);
  });

  test('findings stand at the line of the piece', () => {
    const [found] = findings(kit('  A: panel\n  "A.1": flap'), { '../media/a.svg': piece('A') });
    expect([found?.line, found?.column, found?.rule]).toEqual([6, 4, 'kit-piece-not-drawn']);
  });

  test('a pair of different shapes is no pair', () => {
    const pair = kit('  P-L: patch (left)\n  P-R: patch (right)');
    expect(rules(pair, piece('P-L') + piece('P-R', 20))).toEqual([]);
    const [found] = findings(pair, {
      '../media/a.svg': `${piece('P-L')}<rect id="P-R" class="piece" x="20" width="9" height="12"/>`,
    });
    expect(found?.message).toBe('P-L and P-R are a pair, and they are not the same piece.');
  });
});

describe('the drawing itself', () => {
  test('no more than five of its faults are told at once, with their lines', () => {
    const drawing = '<path/>\n'.repeat(9);
    const told = findings('![It](../media/a.svg)\n\n- [ ] Flat', { '../media/a.svg': drawing });
    expect(told.map(({ message }) => message)).toEqual(
      [2, 3, 4, 5, 6].map((line) => `../media/a.svg, line ${line}: This path has no d, so it shows nothing.`),
    );
  });

  test('a picture without parts of a panel need not be to scale', () => {
    const hands = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><line x2="9"/></svg>';
    expect(rules('![Hands](../media/a.svg)\n\n- [ ] Flat', hands)).toEqual([]);
    const panel = hands.replace('<line x2="9"/>', '<line x2="9"/><line class="seam" x2="9"/>');
    expect(rules('![Hands](../media/a.svg)\n\n- [ ] Flat', panel)).toEqual(['drawing-not-to-scale']);
  });

  test('the parts of a drawing with a fault are not missed before it is mended', () => {
    expect(rules('![It](../media/a.svg#B)\n\n- [ ] Flat', '<path id="A"/>')).toEqual(['drawing-fault']);
    expect(rules('![It](../media/a.svg#B)\n\n- [ ] Flat', '<use id="A"/>')).toEqual([
      'drawing-half-read',
      'picture-id-missing',
    ]);
  });
});

test('a photograph has no parts to bring out', () => {
  const look = (picture: string): readonly unknown[] =>
    findings(`![Knot](../media/${picture})\n\n- [ ] Flat`, {}).map(({ rule, found }) => [rule, found]);
  expect(look('knot.png#A')).toEqual([['picture-id-missing', '../media/knot.png#A']]);
  expect(look('knot.png')).toEqual([]);
});

/** A practice procedure with its drawing changed: what was right is found out. */
describe('the practice jobs', () => {
  const room = new URL('../../../', import.meta.url);
  const textOf = (path: string): string => readFileSync(new URL(path, room), 'utf8');
  const proof = (name: string, drawing: string, change: (svg: string) => string): readonly string[] =>
    proofread(textOf(`procedures/${name}.md`), `${name}.md`, (address) =>
      readDrawing(change(textOf(`media/${drawing}.svg`)), address),
    ).findings.map(({ rule, message }) => `${rule}: ${message}`);
  const changed = (from: string, to: string) => (text: string) => {
    expect(text).toContain(from);
    return text.replaceAll(from, to);
  };

  test.each(['LIN-2207', 'LIN-2207.es'])('%s: a pencil line drawn 2 mm off', (name) => {
    const found = proof(
      name,
      'lining',
      changed('y1="540" x2="535" y2="540" stroke', 'y1="542" x2="535" y2="542" stroke'),
    );
    expect(found).toEqual([
      'nominal-unlike-drawing: The limit says 72 ±1, and line-D2–B-front in ../media/lining.svg is 74 mm.',
    ]);
  });

  test('a notch moved by 2 mm on one panel', () =>
    expect(proof('LIN-2207', 'lining', changed('M357 468', 'M359 468'))).toEqual([
      'joined-edges-unlike: From notch-A-aft-2 to notch-A-aft-3, A-aft is 360 mm and B-front is 362 mm; the ease is 0 mm.',
    ]));

  test('a corner patch drawn as the other one', () =>
    expect(
      proof(
        'HOD-0931',
        'hood',
        changed(
          'M1496 466 H1426 V536 H1436 A60 60 0 0 0 1496 476 Z',
          'M1426 466 H1496 V526 H1486 A60 60 0 0 1 1426 476 Z',
        ),
      ),
    ).toEqual(['pair-not-mirrored: PT-L and PT-R are a pair, and they are not the same piece.']));

  test('a strip too few', () =>
    expect(
      proof('CUS-0412', 'cushion', changed('<rect class="piece" x="2080" y="1620" width="1080" height="40"/>', '')),
    ).toEqual(['kit-count-unlike-drawing: The kit has 6 of PS, and ../media/cushion.svg shows 5.']));

  test('a panel drawn shallower', () =>
    expect(proof('CUT-0100', 'cutting', changed('1420,644 120,644', '1420,640 120,640'))).toEqual([
      'nominal-unlike-drawing: The limit says 504 ±1, and B depth in ../media/cutting.svg is 500 mm.',
    ]));
});
