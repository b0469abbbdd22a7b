import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import type { Drawing } from '../../src/drawing/drawing.ts';
import { type CharacterPicture, drawInCharacters } from '../../src/picture/draw-in-characters.ts';
import { fragments } from './fragments.ts';
import { readSample } from './read-sample.ts';

const names = ['lining', 'cushion', 'hood', 'cutting'] as const;
const drawings = Object.fromEntries(names.map((name) => [name, readSample(name)]));
const sizes = [
  { columns: 40, rows: 12 },
  { columns: 60, rows: 20 },
  { columns: 100, rows: 30 },
];
const nothing = { broughtOut: [], sewn: [] };

const textOf = (picture: CharacterPicture): readonly string[] =>
  picture.map((row) => row.map(({ text }) => text).join(''));

/** The words of one tone. */
const wordsOf = (picture: CharacterPicture, tone: 'bright' | 'plain' | 'faint'): string =>
  picture
    .map((row) => row.map((run) => (run.tone === tone ? run.text.replace(/[\u2801-\u28ff]/g, ' ') : '  ')).join(''))
    .join('  ');

const seen: readonly (readonly [string, keyof typeof drawings, readonly string[], readonly string[]])[] = [
  ['sleeves', 'lining', ['D1', 'D2', 'D3', 'D4'], []],
  ['one-sleeve', 'lining', ['D2'], ['D1']],
  ['joined', 'lining', ['B-C'], ['D1', 'D2', 'D3', 'D4', 'E', 'F-L', 'F-R', 'A-B']],
  ['measured', 'lining', ['A-B', 'diagonal-1'], ['A-B']],
  ['rows', 'lining', ['T1', 'T2', 'T3', 'T4', 'join-detail'], ['A-B', 'B-C']],
  ['window', 'hood', ['row-2', 'opening'], []],
  ['loop', 'cushion', ['BX', 'E1', 'E2', 'loop'], ['J1', 'J2']],
  ['stage-one', 'cutting', ['stage-1'], []],
  ['whole', 'cutting', [], []],
];

describe.each(seen)('%s', (name, drawing, broughtOut, sewn) => {
  test('is drawn as it should', async () => {
    for (const size of sizes) {
      const picture = drawInCharacters(drawings[drawing] as Drawing, size, { broughtOut, sewn });
      const rows = picture.map((row) => row.map(({ text }) => text).join(''));
      await expect(`${rows.map((row) => row.trimEnd()).join('\n')}\n`).toMatchFileSnapshot(
        `frames/${name}-${size.columns}x${size.rows}.txt`,
      );
    }
  });
});

test('every picture of the demo procedures fills its room exactly, shows a heavy line, and names whatever it brings out', () => {
  const missing: string[] = [];
  for (const [name, broughtOut] of fragments()) {
    for (const size of sizes) {
      const picture = drawInCharacters(drawings[name] as Drawing, size, { broughtOut, sewn: [] });
      expect(textOf(picture).map(columns)).toEqual(Array(size.rows).fill(size.columns));
      expect(textOf(picture).join('')).toMatch(/[⠛⠶⣤⣿⠿⣶]/);
      const bright = wordsOf(picture, 'bright').replaceAll('–', '-');
      missing.push(...broughtOut.filter((id) => !bright.includes(id)).map((id) => `${name} ${id} ${size.columns}`));
    }
  }
  // A group of nothing but words: labels say of no group that they stand in it.
  expect(missing.filter((one) => !one.startsWith('cutting order'))).toEqual([]);
});

const square = 'M0 0 L100 0 L100 100 L0 100 Z';
const part = { id: 'A', groups: [], kind: 'piece', title: null, path: square } as const;
const small: Drawing = { title: null, box: { x: 0, y: 0, width: 100, height: 100 }, parts: [part], labels: [] };
const box = { columns: 20, rows: 10 };

describe('a line tells how it stands without any colour', () => {
  const line = { id: 'S', groups: ['G'], kind: 'seam', title: null, path: 'M0 50 L100 50' } as const;
  const drawn = (broughtOut: readonly string[], sewn: readonly string[]): string =>
    textOf(drawInCharacters({ ...small, parts: [line] }, box, { broughtOut, sewn }))[5] ?? '';
  test('nothing said of it: thin', () => expect(drawn([], [])).toBe('⠉'.repeat(20)));
  test('brought out: two dots wide', () => expect(drawn(['S'], [])).toBe('⠛'.repeat(20)));
  test('brought out by its group', () => expect(drawn(['G'], [])).toContain('⠛⠛⠛⠛⠛⠛'));
  test('sewn: stitches', () => expect(drawn([], ['S'])).toBe('⠉⠉⠉  '.repeat(4)));
  test('sewn and brought out: heavy stitches', () => expect(drawn(['S'], ['S'])).toBe('⠛⠛⠛⠃ '.repeat(4)));
  test('something else is told of: dots', () => expect(drawn([], ['other'])).toBe('⠁'.repeat(20)));
});

test('a seam is drawn in the same stitches however many points it has', () => {
  const through = (points: number): string =>
    Array.from({ length: points + 1 }, (_, at) => `${at === 0 ? 'M' : 'L'}${(at * 100) / points} 50`).join(' ');
  const drawn = (path: string): string => {
    const seam = { id: 'S', groups: [], kind: 'seam', title: null, path } as const;
    return textOf(drawInCharacters({ ...small, parts: [seam] }, box, { broughtOut: [], sewn: ['S'] }))[5] ?? '';
  };
  expect(drawn(through(1))).toBe('⠉⠉⠉  '.repeat(4));
  expect(drawn(through(400))).toMatch(/^(?:[⠉⠁⠈]{3,4} {1,2}){4}$/);
});

test('only seams are sewn: a piece of the same group is not drawn as stitches', () => {
  const sewn = textOf(drawInCharacters(small, box, { broughtOut: [], sewn: ['A'] }));
  expect(sewn[0]).toBe(textOf(drawInCharacters(small, box, { broughtOut: [], sewn: ['other'] }))[0]);
});

test('what crosses a heavy line does not blur it, and nothing fills the gaps between stitches', () => {
  const seam = { id: 'S', groups: [], kind: 'seam', title: null, path: 'M0 50 L100 50' } as const;
  const near = { id: null, groups: [], kind: 'other', title: null, path: 'M0 52 L100 52 M50 0 L50 100' } as const;
  const alone = { ...small, parts: [seam] };
  const crossed = { ...small, parts: [near, seam] };
  for (const wanted of [
    { broughtOut: ['S'], sewn: [] },
    { broughtOut: [], sewn: ['S'] },
  ]) {
    expect(textOf(drawInCharacters(crossed, box, wanted))[5]).toBe(textOf(drawInCharacters(alone, box, wanted))[5]);
  }
});

test('a picture comes near what it brings out, and keeps its surroundings', () => {
  const whole = textOf(drawInCharacters(drawings.lining as Drawing, { columns: 60, rows: 20 }, nothing)).join('\n');
  const wanted = { broughtOut: ['notch-AB-left'], sewn: [] };
  const near = textOf(drawInCharacters(drawings.lining as Drawing, { columns: 60, rows: 20 }, wanted)).join('\n');
  expect(whole).toContain('allowance 12, open');
  expect(near).not.toContain('allowance 12, open');
  for (const words of ['A–B', ' A ', ' B ', 'left', 'notch-AB-left']) expect(near).toContain(words);
});

test('the name of what is brought out has its place before other words', () => {
  const at = { x: 50, y: 50, height: 10, anchor: 'middle' } as const;
  const crowded = {
    ...small,
    labels: [
      { words: 'something else', ...at },
      { words: 'A, front', ...at },
    ],
  };
  const picture = drawInCharacters(crowded, box, { broughtOut: ['A'], sewn: [] });
  expect(wordsOf(picture, 'bright')).toContain('A, front');
  expect(wordsOf(picture, 'faint')).toContain('something else');
});

test('a sentence that has to make room moves where nothing is, and not onto something else that it would seem to be about', () => {
  const line = (id: string, y: number) =>
    ({ id, groups: [], kind: 'mark', title: null, path: `M0 ${y} L100 ${y}` }) as const;
  const around = [line('a', 42), line('b', 47), line('c', 57), line('d', 62)];
  const words = 'a sentence of what is here';
  const seen = (parts: Drawing['parts']): string => {
    const labels = [{ words, x: 50, y: 54, height: 4, anchor: 'middle' }] as const;
    const drawing = { ...small, box: { x: 0, y: 0, width: 100, height: 100 }, parts, labels };
    const wanted = { broughtOut: ['seam'], sewn: [] };
    return textOf(drawInCharacters(drawing, { columns: 40, rows: 20 }, wanted)).join('\n');
  };
  expect(seen([line('seam', 52), ...around])).not.toContain(words);
  expect(seen([line('seam', 52), ...around.slice(1)])).toContain(words);
});

test('words are whole, never one upon another, in any script, wherever they stand', () => {
  const words = fc.constantFrom(
    'A',
    'front edge',
    '前襟',
    '한글 말',
    'é́',
    'D1, sleeve',
    '\x1b[2J',
    'a\u202eb',
    '👩🏽‍🔧',
  );
  const place = fc.double({ min: -50, max: 150, noNaN: true });
  const label = fc.record({
    words,
    x: place,
    y: place,
    height: fc.constant(5),
    anchor: fc.constantFrom('start', 'middle', 'end'),
  });
  fc.assert(
    fc.property(
      fc.array(label, { maxLength: 12 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 12 }),
      (labels, wide, rows) => {
        const picture = drawInCharacters(
          { ...small, labels } as Drawing,
          { columns: wide, rows },
          { broughtOut: ['A'], sewn: [] },
        );
        const lines = textOf(picture);
        expect(lines.map(columns)).toEqual(Array(rows).fill(wide));
        expect(lines.join('')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
        const letters = lines
          .join('\n')
          .replace(/[\u2800-\u28ff]/g, ' ')
          .split(/ {2,}|\n/);
        const known = ['A', 'front edge', '前襟', '한글 말', 'é́', 'D1, sleeve', '␛[2J', 'a⟨U+202E⟩b'];
        for (const one of letters.map((each) => each.trim()).filter((each) => each !== '')) {
          expect(known.includes(one) || one.includes('👩🏽')).toBe(true);
        }
      },
    ),
  );
});

test('numbers that are none, and lines far outside, do no harm', () => {
  const path = `M0 0 L1e308 -1e308 L${'9'.repeat(400)} 5 M-1e9 50 L1e9 50 Z`;
  const hostile = { ...small, parts: [part, { ...part, id: 'B', path }] };
  const wanted = { broughtOut: ['B'], sewn: [] };
  expect(textOf(drawInCharacters(hostile, box, wanted)).map(columns)).toEqual(Array(10).fill(20));
  expect(drawInCharacters({ ...small, box: { x: 0, y: 0, width: 0, height: 0 } }, box, nothing)).toHaveLength(10);
  expect(drawInCharacters(small, { columns: 0, rows: 0 }, nothing)).toEqual([]);
});

/** Milliseconds that a picture takes, the least of three. */
function timeOf(drawing: Drawing, broughtOut: readonly string[]): number {
  const times = [1, 2, 3].map(() => {
    const from = performance.now();
    drawInCharacters(drawing, { columns: 60, rows: 20 }, { broughtOut, sewn: [] });
    return performance.now() - from;
  });
  return Math.min(...times);
}

test('a picture of 60 by 20 is ready long before anybody notices', () => {
  for (const [name, broughtOut] of fragments()) expect(timeOf(drawings[name] as Drawing, broughtOut)).toBeLessThan(50);
});

test('a drawing as large as can be read does not make anybody wait', () => {
  const pieces = Array.from({ length: 2400 }, (_, at) => ({ ...part, id: `P${at}` }));
  const labels = pieces.map(({ id }, at) => ({
    words: id,
    x: at % 300,
    y: at % 200,
    height: 5,
    anchor: 'start' as const,
  }));
  expect(timeOf({ ...small, parts: pieces, labels }, ['P7'])).toBeLessThan(600);
  const arcs = Array.from({ length: 10 }, (_, at) => `A900000 900000 0 1 1 ${at % 100} 1`).join('');
  const far = Array.from({ length: 1000 }, () => ({ ...part, id: null, path: `M0 0${arcs}` }));
  expect(timeOf({ ...small, parts: [part, ...far] }, ['A'])).toBeLessThan(2000);
});
