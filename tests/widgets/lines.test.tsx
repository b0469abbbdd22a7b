import { describe, expect, test, vi } from 'vitest';

vi.hoisted(() => {
  process.env.FORCE_COLOR = '2';
});

import { Lines } from '../../src/widgets/lines.tsx';
import { type Row, type Style, span } from '../../src/widgets/row.ts';
import { inColour, themeFor, withoutColour } from '../../src/widgets/theme.ts';
import { draw } from './draw.tsx';

const numbered = (count: number, width: number): readonly Row[] =>
  Array.from({ length: count }, (_, at) => [span(`${at} `.padEnd(width, '.'))]);

const styles = Object.keys(inColour) as readonly Style[];

describe('rows on a terminal', () => {
  test.each([
    [1, 1],
    [2, 1],
    [60, 20],
    [80, 24],
    [120, 40],
  ])('%i by %i is filled to the last column and row, and nothing is pushed off', async (width, height) => {
    const rows = numbered(height, width).map(([only]): Row => [span((only?.text ?? '').slice(0, width), 'reverse')]);
    const seen = await draw(<Lines rows={rows} width={width} height={height} theme={withoutColour} />, width, height);
    expect(seen.lines).toEqual(rows.map((row) => row[0]?.text.trimEnd()));
    expect(seen.lost).toBe(0);
  });

  test('rows too many and too wide are cut, rows too few are empty', async () => {
    const wide = await draw(<Lines rows={numbered(9, 30)} width={10} height={3} theme={inColour} />, 10, 3);
    expect(wide.lines).toEqual(['0 .......…', '1 .......…', '2 .......…']);
    const few = await draw(
      <Lines rows={[[span('a')], [], [span('b')]]} width={10} height={5} theme={inColour} />,
      10,
      5,
    );
    expect(few.lines).toEqual(['a', '', 'b', '', '']);
  });

  test('a changed row replaces the old one and leaves the others', async () => {
    const first = await draw(
      <Lines rows={[[span('one two')], [span('stays')]]} width={20} height={2} theme={inColour} />,
      20,
      2,
    );
    const second = await first.again(
      <Lines rows={[[span('one')], [span('stays')]]} width={20} height={2} theme={inColour} />,
    );
    expect(second.lines).toEqual(['one', 'stays']);
    const third = await second.again(
      <Lines rows={[[span('one', 'bad')], [span('stays')]]} width={20} height={2} theme={inColour} />,
    );
    expect(third.sent.slice(second.sent.length)).toContain('\u001b[7m');
  });

  test('what a terminal would obey is shown as marks', async () => {
    const rows = [[span('a\u001b]0;title\u0007b\u001b[2Jc\rd\u202ee\nf')]];
    const seen = await draw(<Lines rows={rows} width={40} height={2} theme={inColour} />, 40, 2);
    expect(seen.lines).toEqual(['a␛]0;title␇b␛[2Jc␍d⟨U+202E⟩e f', '']);
    expect(seen.sent).not.toContain('\u001b]0;');
  });
});

describe('themes', () => {
  const everything = styles.map((style): Row => [span(style, style)]);
  const SGR = /\u001b\[([\d;]*)m/g;
  const codes = (sent: string): readonly string[] => [...sent.matchAll(SGR)].map((found) => found[1] ?? '');
  const isColour = (code: string): boolean => /^(3[0-8]|4[0-8]|9\d|10\d)(;|$)/.test(code);

  test('NO_COLOR leaves no colour code, but bold and reverse', async () => {
    const theme = themeFor({ NO_COLOR: '1' }, 3);
    const seen = await draw(
      <Lines rows={everything} width={20} height={styles.length} theme={theme} />,
      20,
      styles.length,
    );
    expect(codes(seen.sent).filter(isColour)).toEqual([]);
    expect(codes(seen.sent)).toEqual(expect.arrayContaining(['1', '7']));
    expect(seen.lines).toEqual(styles);
  });

  test.each([{}, { NO_COLOR: '' }])('%o means colour', async (environment) => {
    const theme = themeFor(environment, 2);
    const seen = await draw(
      <Lines rows={everything} width={20} height={styles.length} theme={theme} />,
      20,
      styles.length,
    );
    expect(codes(seen.sent)).toEqual(expect.arrayContaining(['48;5;124', '48;5;208', '48;5;220', '48;5;25']));
  });

  test('with sixteen colours there is no grey: what is dim is drawn as the rest, which is read on any ground', async () => {
    const theme = themeFor({}, 1);
    const rows: readonly Row[] = [[span('dim', 'dim')], [{ text: '▒▒', greys: { over: 0, under: 23 } }]];
    const seen = await draw(<Lines rows={rows} width={4} height={2} theme={theme} />, 4, 2);
    expect(codes(seen.sent).filter(isColour)).toEqual([]);
    expect(seen.lines).toEqual(['dim', '▒▒']);
    const warning = await draw(<Lines rows={[[span('!', 'warning')]]} width={4} height={1} theme={theme} />, 4, 1);
    expect(codes(warning.sent).filter(isColour)).not.toEqual([]);
  });

  test('greys of a photograph are half blocks in colour, and shades without it', async () => {
    const rows: readonly Row[] = [[{ text: '▒▒', greys: { over: 0, under: 23 } }, span('a')]];
    const coloured = await draw(<Lines rows={rows} width={4} height={2} theme={inColour} />, 4, 2);
    expect(coloured.lines[0]).toBe('▀▀a');
    expect(codes(coloured.sent)).toEqual(expect.arrayContaining(['38;5;232', '48;5;255']));
    const plain = await draw(<Lines rows={rows} width={4} height={2} theme={withoutColour} />, 4, 2);
    expect(plain.lines[0]).toBe('▒▒a');
    expect(codes(plain.sent).filter(isColour)).toEqual([]);
    const other: readonly Row[] = [[{ text: '▒▒', greys: { over: 0, under: 5 } }, span('a')]];
    const again = await coloured.again(<Lines rows={other} width={4} height={2} theme={inColour} />);
    expect(codes(again.sent)).toContain('48;5;237');
    const third: readonly Row[] = [[{ text: '▒▒', greys: { over: 9, under: 5 } }, span('a')]];
    const once = await coloured.again(<Lines rows={third} width={4} height={2} theme={inColour} />);
    expect(codes(once.sent)).toContain('38;5;241');
  });

  test('no theme uses the attribute "dim", which many terminals draw too faintly', async () => {
    for (const theme of [inColour, withoutColour]) {
      const seen = await draw(
        <Lines rows={everything} width={20} height={styles.length} theme={theme} />,
        20,
        styles.length,
      );
      expect(codes(seen.sent)).not.toContain('2');
    }
  });

  test('safety colours belong to the signal words alone', () => {
    const grounds = styles.filter((style) => inColour[style].backgroundColor !== undefined);
    expect(grounds.toSorted()).toEqual(['caution', 'danger', 'notice', 'warning']);
    const letters = styles.filter((style) => /red|yellow|blue|green/i.test(inColour[style].color ?? ''));
    expect(letters).toEqual([]);
  });

  test('letters stand out from their ground (WCAG contrast), and grey from black and white', () => {
    for (const style of ['danger', 'warning', 'caution', 'notice'] as const) {
      expect(contrast(luminance(inColour[style].color), luminance(inColour[style].backgroundColor))).toBeGreaterThan(
        4.5,
      );
    }
    expect(contrast(luminance(inColour.dim.color), 0)).toBeGreaterThan(3.9);
    expect(contrast(luminance(inColour.dim.color), 1)).toBeGreaterThan(3.9);
  });
});

/** Relative luminance, WCAG 2.1, of an xterm 256-colour number: a 6 × 6 × 6 cube from 16, greys from 232. */
function luminance(colour: string | undefined): number {
  const number = Number(/\d+(?=\))/.exec(colour ?? '')?.[0]);
  const cube = number - 16;
  const level = (step: number): number => (step === 0 ? 0 : 55 + 40 * step);
  const grey = 8 + 10 * (number - 232);
  const rgb =
    number >= 232 ? [grey, grey, grey] : [cube / 36, (cube % 36) / 6, cube % 6].map((step) => level(Math.floor(step)));
  const [red, green, blue] = rgb.map((value) =>
    value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * (red ?? NaN) + 0.7152 * (green ?? NaN) + 0.0722 * (blue ?? NaN);
}

const contrast = (a: number, b: number): number => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
