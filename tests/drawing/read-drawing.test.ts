import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isToScale, readDrawing } from '../../src/drawing/read-drawing.ts';
import { placeOfMark, plain } from '../procedure/mark.ts';
import { svg } from './svg.ts';

const parts = (inside: string) => readDrawing(svg(inside), 'a.svg').drawing.parts;
const paths = (inside: string): readonly string[] => parts(inside).map(({ path }) => path);

describe('what is drawn', () => {
  test('each shape is its path, from the start and in the direction that SVG gives it', () => {
    expect(paths('<line x1="1" y1="2" x2="3" y2="4"/>')).toEqual(['M1 2L3 4']);
    expect(paths('<polyline points="0,0 10,0 10,5"/>')).toEqual(['M0 0L10 0L10 5']);
    expect(paths('<polygon points="0 0 10 0 10 5"/>')).toEqual(['M0 0L10 0L10 5Z']);
    expect(paths('<rect x="1" y="2" width="10" height="5"/>')).toEqual(['M1 2L11 2L11 7L1 7Z']);
    expect(paths('<circle cx="5" cy="6" r="2"/>')).toEqual([
      'M7 6A2 2 0 0 1 5 8A2 2 0 0 1 3 6A2 2 0 0 1 5 4A2 2 0 0 1 7 6Z',
    ]);
    expect(paths('<ellipse cx="5" cy="6" rx="3" ry="2"/>')[0]).toMatch(/^M8 6A3 2 0 0 1 5 8A/);
    expect(paths('<rect width="10" height="6" rx="2"/>')[0]).toMatch(/^M2 0L8 0A2 2 0 0 1 10 2L10 4A2 2 0 0 1 8 6/);
    expect(paths('<rect width="10" height="6" ry="2"/>')).toEqual(paths('<rect width="10" height="6" rx="2"/>'));
    expect(paths('<rect width="10" height="6" rx="9" ry="1"/>')[0]).toMatch(/^M5 0L5 0A5 1 0 0 1 10 1/);
  });

  test('a path is made absolute, of M, L, C, Q, A and Z only', () => {
    expect(paths('<path d="m1 1h2v2H1z"/>')).toEqual(['M1 1L3 1L3 3L1 3Z']);
    expect(paths('<path d="M0 0q2 2 4 0t4 0"/>')).toEqual(['M0 0Q2 2 4 0Q6 -2 8 0']);
    expect(paths('<path d="M0 0c0 2 4 2 4 0s4-2 4 0"/>')).toEqual(['M0 0C0 2 4 2 4 0C4 -2 8 -2 8 0']);
    expect(paths('<path d="M0 0A5 5 0 0110 0"/>')).toEqual(['M0 0A5 5 0 0 1 10 0']);
  });

  test('transforms are applied, from the innermost group outwards', () => {
    expect(paths('<g transform="translate(10 20)"><g transform="scale(2)"><path d="M1 1H2"/></g></g>')).toEqual([
      'M12 22L14 22',
    ]);
    expect(paths('<path transform="rotate(90)" d="M1 2h3v1"/>')).toEqual(['M-2 1L-2 4L-3 4']);
    expect(paths('<path transform="rotate(90 5 5)" d="M5 0V5"/>')).toEqual(['M10 5L5 5']);
    expect(paths('<path transform="matrix(0,2,-1,0,5,6)" d="M10 10H60"/>')).toEqual(['M-5 26L-5 126']);
    expect(paths('<path transform="translate(1) , scale(-1 1)" d="M2 3H4"/>')).toEqual(['M-1 3L-3 3']);
  });

  test('a mirrored arc goes round the other way', () => {
    expect(paths('<path transform="scale(-1 1)" d="M0 0A5 5 0 0 1 10 0"/>')).toEqual(['M0 0A5 5 0 0 0 -10 0']);
  });

  test('a part has its id, the groups it stands in, its kind and its title', () => {
    const [part] = parts(
      '<g id="D1"><g id="inner"><line id="seam-D1" class="thin seam" x2="9"><title>Seam\n of D1</title></line></g></g>',
    );
    expect(part).toEqual({
      id: 'seam-D1',
      groups: ['D1', 'inner'],
      kind: 'seam',
      title: 'Seam of D1',
      path: 'M0 0L9 0',
    });
  });

  test('a part without a class is of the kind of its group, or of none', () => {
    const kinds = parts('<g class="notch"><line x2="1"/><line class="mark" x2="1"/></g><line x2="1"/>');
    expect(kinds.map(({ kind }) => kind)).toEqual(['notch', 'mark', 'other']);
  });

  test('what is hidden, and what only other programs read, is not drawn', () => {
    const hidden = '<g style="display: none"><line x2="1"/></g><line visibility="hidden" x2="1"/>';
    const theirs = '<defs><line x2="1"/></defs><metadata><line x2="1"/></metadata><x:line xmlns:x="y" x2="1"/>';
    expect(readDrawing(svg(hidden + theirs), 'a.svg')).toMatchObject({ drawing: { parts: [] }, findings: [] });
  });

  test('labels have their words, place, height and anchor', () => {
    const { labels } = readDrawing(
      svg(
        '<g font-size="10" text-anchor="middle" transform="translate(5 5) scale(2)"><text x="1" y="2">D1 <tspan>&amp; D2</tspan></text><text style="font-size:4px;text-anchor:end">a<tspan x="3" dy="6">b</tspan></text></g>',
      ),
      'a.svg',
    ).drawing;
    expect(labels).toEqual([
      { words: 'D1 & D2', x: 7, y: 9, height: 20, anchor: 'middle' },
      { words: 'a', x: 5, y: 5, height: 8, anchor: 'end' },
      { words: 'b', x: 11, y: 17, height: 8, anchor: 'end' },
    ]);
  });

  test('ids are those of parts, groups and words alike', () => {
    const { ids } = readDrawing(svg('<g id="a"><text id="b">c</text></g><line id="d" x2="1"/>'), 'a.svg');
    expect([...ids]).toEqual(['a', 'b', 'd']);
  });

  test('title and box are those of the file, whatever its line ends', () => {
    const text = svg('<title>Lining,\n invented</title><line x2="1"/>').replaceAll('\n', '\r\n');
    expect(readDrawing(`\uFEFF${text}`, 'a.svg')).toEqual({
      drawing: {
        title: 'Lining, invented',
        box: { x: 0, y: 0, width: 200, height: 100 },
        parts: [{ id: null, groups: [], kind: 'other', title: null, path: 'M0 0L1 0' }],
        labels: [],
      },
      ids: new Set(),
      findings: [],
    });
  });
});

const LINE = '<line x2="1"/>';
const head = (attributes: string): string => `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${LINE}</svg>`;

/** A rule, a drawing that breaks it at the mark, and one that does not. */
const CASES: readonly (readonly [rule: string, bad: string, good: string])[] = [
  ['drawing-unreadable', '<svg xmlns="http://www.w3.org/2000/svg">\n<g>\n¦</svg>', `<g>${LINE}</g>`],
  ['drawing-unreadable', '¦&nbsp;', '&amp;'],
  ['drawing-not-svg', '¦<svg><line/></svg>', LINE],
  ['drawing-unsafe', `¦<!DOCTYPE svg [<!ENTITY a "b">]>\n${svg(LINE)}`, `<!-- a -->${svg(LINE)}`],
  ['drawing-unsafe', `¦<?xml-stylesheet href="a.css"?>\n${svg(LINE)}`, `<?xml version="1.0"?>\n${svg(LINE)}`],
  ['drawing-unsafe', '¦<script>alert(1)</script>', LINE],
  ['drawing-unsafe', '<defs>¦<x:script xmlns:x="http://www.w3.org/2000/svg"/></defs>', LINE],
  ['drawing-unsafe', '¦<foreignObject/>', LINE],
  ['drawing-unsafe', '<line x2="1" ONLOAD="¦alert(1)"/>', '<line x2="1" aria-label="onload"/>'],
  ['drawing-unsafe', '<line x2="1" stroke="¦url(https://example.org/a)"/>', '<line x2="1" stroke="url(#a)"/>'],
  ['drawing-unsafe', '<line x2="1" style="¦fill:url(\'//example.org/a\')"/>', `<line x2="1" style="fill:url('#a')"/>`],
  ['drawing-unsafe', '<line x2="1" style="fill:u\\72l(a)"/>'.replace('"fill', '"¦fill'), LINE],
  ['drawing-unsafe', '¦<style>@import "a.css";</style>', '<style>line { fill: none }</style>'],
  ['drawing-unsafe', '¦<style>@\\69mport "//example.org/a.css";</style>', '<style>line { fill: none }</style>'],
  ['drawing-unsafe', '¦<style>svg { background: image-set("//example.org/a" 1x) }</style>', LINE],
  ['drawing-unsafe', '<g xml:base="¦https://example.org/"/>', '<g xml:lang="en"/>'],
  ['drawing-unsafe', '<line x2="1" src="¦a.png"/>', LINE],
  ['drawing-unread', '<g id="a"/>¦<use href="#a"/>', '<g id="a"/>'],
  ['drawing-unread', '¦<image href="#a"/>', LINE],
  ['drawing-unread', '<line x2="1">¦<animate attributeName="x2"/></line>', '<line x2="1"><desc>a</desc></line>'],
  ['drawing-unread', '<text>¦<textPath href="#a">b</textPath></text>', '<text><tspan>b</tspan></text>'],
  ['drawing-unread', '<g>¦<svg/></g>', '<g/>'],
  ['drawing-id-twice', '<line id="a" x2="1"/><g id="¦a"/>', '<line id="a" x2="1"/><g id="b"/>'],
  ['drawing-kind', '<line class="¦seam edge" x2="1"/>', '<line class="seam dashed" x2="1"/>'],
  ['drawing-kind', '<line class="¦Notches" x2="1"/>', '<line class="notch" x2="1"/>'],
  ['drawing-transform', '<g transform="¦rotate(90deg)"/>', '<g transform="rotate(90)"/>'],
  ['drawing-transform', '<g transform="¦scale(0)"/>', '<g transform=" scale( 1 , 2 ) skewX(3)"/>'],
  ['drawing-number', '<line x2="¦1mm"/>', LINE],
  ['drawing-number', '<line x2="¦NaN"/>', '<line x2="1e1"/>'],
  ['drawing-number', '<line x2="¦1e9"/>', '<line x2="1e6"/>'],
  ['drawing-number', '<rect width="¦10%" height="1"/>', '<rect width="10" height="1" rx="auto"/>'],
  ['drawing-number', '¦<rect width="10" height="-1"/>', '<rect width="10" height="1"/>'],
  ['drawing-number', '¦<circle r="0"/>', '<circle r="1"/>'],
  ['drawing-number', '<text y="1" x="¦50%">a</text>', '<text y="1" x="50 60">a</text>'],
  ['drawing-number', '<polygon points="¦0,0 1,1 2"/>', '<polygon points="0,0 1,1 2,0"/>'],
  ['drawing-number', '<polygon points="¦0,0 1;1"/>', '<polygon points="0,0 1-1"/>'],
  ['drawing-path', '¦<path/>', '<path d="M0 0H1"/>'],
  ['drawing-path', '<path d="¦"/>', '<path d="M0 0H1"/>'],
  ['drawing-path', '<path d="¦H1"/>', '<path d="M0 0H1"/>'],
  ['drawing-path', '<path d="¦M0 0 L1 NaN"/>', '<path d="M0 0 L1 1"/>'],
  ['drawing-path', '<path d="¦M0 0 L1e400 1"/>', '<path d="M0 0 L1e2 1"/>'],
  ['drawing-path', '<path d="¦M0 0 A1 1 0 2 0 3 3"/>', '<path d="M0 0 A1 1 0 1 0 3 3"/>'],
  ['drawing-path', '<path transform="scale(2000)" d="¦M0 0H1000"/>', '<path transform="scale(2)" d="M0 0H1000"/>'],
  [
    'drawing-style',
    '<line x2="1" style="¦stroke:red; transform : rotate(9deg)"/>',
    '<line x2="1" style="stroke-width:9"/>',
  ],
  [
    'drawing-style',
    '<rect width="9" height="9" style="¦width:20px"/>',
    '<rect width="9" height="9" style="stroke-width:1"/>',
  ],
  [
    'drawing-style',
    '¦<style>.a, #b { fill: none; Scale: 2 }</style>',
    '<style>svg { width: 100%; display: block }</style>',
  ],
  [
    'drawing-style',
    '<defs>¦<style>.a { display: none }</style></defs>',
    '<style>.a { fill: none; stroke: red }</style>',
  ],
  ['drawing-units', head('width="¦200px" height="100px" viewBox="0 0 200 100"'), head(scaled(200))],
  ['drawing-units', head('width="¦200mm" height="100mm" viewBox="0 0 400 200"'), head(scaled(200.5))],
  ['drawing-units', head('width="¦200mm" height="90mm" viewBox="0 0 200 100"'), head(scaled(1))],
  ['drawing-units', head('viewBox="¦0 0 200 100"'), head(scaled(1))],
  [
    'drawing-units',
    head('width="¦8in" height="4in" viewBox="0 0 8 4"'),
    head('width="8in" height="4in" viewBox="0 0 203.2 101.6"'),
  ],
  [
    'drawing-units',
    head('width="¦43.30in" height="4in" viewBox="0 0 1100 101.6"'),
    head('width="43.307087in" height="4in" viewBox="0 0 1100 101.6"'),
  ],
  [
    'drawing-units',
    head('width="¦20cm" height="10cm" viewBox="0 0 20 10"'),
    head('width="20cm" height="10 cm " viewBox="0 0 200 100"'),
  ],
  ['drawing-units', head('width="¦200q" height="100q" viewBox="0 0 200 100"'), head(scaled(1))],
  ['drawing-units', `¦${head('width="200mm" height="100mm"')}`, head(scaled(1))],
];

function scaled(width: number): string {
  return `width="${width}mm" height="100mm" viewBox="0 0 ${width} 100"`;
}

describe.each(CASES)('%s: %s', (rule, bad, good) => {
  test('is found at its place, with what to do instead', () => {
    const found = readDrawing(plain(svg(bad)), 'a.svg').findings;
    expect(found.map(({ rule: name, line, column }) => `${name} ${line}:${column}`)).toEqual([
      `${rule} ${placeOfMark(svg(bad))}`,
    ]);
    expect(found[0]?.file).toBe('a.svg');
    expect(found[0]?.message).toMatch(/^[A-Za-z].+\.$/);
    expect(found[0]?.mend).toMatch(/^[A-Z].+\.$/);
  });

  test('is not found where it is not', () => expect(readDrawing(svg(good), 'a.svg').findings).toEqual([]));
});

describe('limits of size', () => {
  const rules = (inside: string): readonly string[] =>
    readDrawing(svg(inside), 'a.svg').findings.map(({ rule }) => rule);

  test('groups in groups', () => {
    const deep = (levels: number): string => '<g>'.repeat(levels) + LINE + '</g>'.repeat(levels);
    expect(rules(deep(39))).toEqual([]);
    expect(rules(deep(40))).toEqual(['drawing-deep']);
    expect(rules(deep(4_990))).toEqual(['drawing-deep']);
  });

  test('elements', () => {
    expect(rules(LINE.repeat(4_999))).toEqual([]);
    expect(rules(LINE.repeat(5_001))).toEqual(['drawing-large']);
  });

  test('path points, in one path or in all together', () => {
    expect(rules(`<path d="M0 0${'h1'.repeat(49_000)}"/>`)).toEqual([]);
    expect(rules(`<path d="M0 0${'h1'.repeat(50_000)}"/>`)).toEqual(['drawing-large']);
    expect(rules(`<path d="M0 0${'h1'.repeat(300)}"/>`.repeat(200))).toEqual(['drawing-large']);
  });

  test('words in words, and names in names', () => {
    for (const name of ['text', 'title', 'style'])
      expect(rules(`<${name}>${'<tspan>'.repeat(4_900)}${'</tspan>'.repeat(4_900)}</${name}>`)).toEqual([
        'drawing-deep',
      ]);
  });

  test('numbers without end and attributes without end keep nobody waiting', () => {
    const long = `<polyline points="${'0 0 1 1 '.repeat(20_000)}${' '.repeat(900_000)}"/>`;
    const busy = `<line x2="1"${Array.from({ length: 50_000 }, (_, nth) => ` on${nth}=""`).join('')}/>`;
    const start = performance.now();
    expect(rules(long)).toEqual([]);
    expect(rules(busy)).toEqual(Array(20).fill('drawing-unsafe'));
    expect(performance.now() - start).toBeLessThan(5_000);
  });

  test('a title is said as a part of a sentence', () => {
    const { parts } = readDrawing(svg(`<line x2="1"><title>${'a'.repeat(9_000)}</title></line>`), 'a.svg').drawing;
    expect(parts[0]?.title).toBe(`${'a'.repeat(199)}…`);
  });

  test('characters', () => expect(rules(`<!--${'a'.repeat(2_000_000)}-->`)).toEqual(['drawing-large']));
});

test('only a drawing in millimetres that could be read is to scale', () => {
  const scale = (text: string): boolean => isToScale(readDrawing(text, 'a.svg'));
  expect([svg(LINE), head('viewBox="0 0 1 1"'), svg('<path/>'), 'nothing'].map(scale)).toEqual([
    true,
    false,
    false,
    false,
  ]);
});

test('what is unsafe or cannot be read is an error; what is only left out, a warning', () => {
  const severities = CASES.map(([rule, bad]) => {
    const [found] = readDrawing(plain(svg(bad)), 'a.svg').findings;
    return `${rule} ${found?.severity}`;
  });
  expect([...new Set(severities)].filter((each) => each.endsWith('warning'))).toEqual([
    'drawing-unread warning',
    'drawing-number warning',
    'drawing-units warning',
  ]);
});

test('whatever a file holds, reading it ends with findings and nothing else', () => {
  const piece = fc.constantFrom(
    '<g>',
    '</g>',
    '<path d="M0 0',
    ' A 1 1 0 0 1 5 5',
    ' C 1 1 2 2 3',
    ' z',
    '"/>',
    '<text x="a">',
    '</text>',
    ' transform="rotate(1e99)"',
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1">',
    '</svg>',
    '<![CDATA[',
    ']]>',
    '\u0000',
    '\ud800',
    '<rect width="1" height="1"',
    ' class="seam notch"',
    '/>',
  );
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 200 }),
    fc.array(piece, { maxLength: 30 }).map((all) => all.join('')),
  );
  fc.assert(
    fc.property(text, (inside) => {
      const { drawing, findings } = readDrawing(svg(inside), 'a.svg');
      expect(drawing.parts.every(({ path }) => !/NaN|Infinity/.test(path))).toBe(true);
      expect(findings.every(({ line, column }) => line > 0 && column > 0)).toBe(true);
    }),
    { numRuns: 500 },
  );
});
