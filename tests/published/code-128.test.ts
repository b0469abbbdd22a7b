import fc from 'fast-check';
import { expect, test } from 'vitest';
import { code128Modules } from '../../src/reports/paper/code-128.ts';

/**
 * ISO/IEC 15417 (Code 128), from memory: the widths of bars and spaces of the values 0 to 102, of the three starts 103 to 105 and of the
 * stop; the code sets; and the check symbol, which is the start's value plus each value times its place, modulo 103.
 */
const WIDTHS = `
212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222 123122 123221 223211
221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321 232121 111323 131123 131321 112313 132113
132311 211313 231113 231311 112133 112331 132131 113123 113321 133121 313121 211331 231131 213113 213311 213131 311123 311321 331121
312113 312311 332111 314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211
221114 413111 241112 134111 111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141
114113 114311 411113 411311 113141 114131 311141 411131 211412 211214 211232`
  .trim()
  .split(/\s+/);
const STOP = '2331112';

test('the table is one: 106 symbols of eleven modules, none twice, with an even count of dark ones', () => {
  expect(WIDTHS).toHaveLength(106);
  expect(new Set(WIDTHS).size).toBe(106);
  for (const widths of WIDTHS) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = [...widths].map(Number);
    expect(a + b + c + d + e + f).toBe(11);
    expect((a + c + e) % 2).toBe(0);
  }
});

/** The values of a bar code, its start first and its check last. */
function valuesOf(modules: readonly boolean[]): readonly number[] {
  const runs =
    modules
      .map((dark) => (dark ? '1' : '0'))
      .join('')
      .match(/1+|0+/g) ?? [];
  const widths = runs.map((run) => run.length).join('');
  expect(widths.slice(-7)).toBe(STOP);
  const symbols = widths.slice(0, -7).match(/.{6}/g) ?? [];
  expect(symbols.join('')).toBe(widths.slice(0, -7));
  return symbols.map((symbol) => WIDTHS.indexOf(symbol));
}

const checkOf = (start: number, data: readonly number[]): number =>
  data.reduce((sum, value, at) => sum + value * (at + 1), start) % 103;

/** What a scanner types. */
function textOf(start: number, data: readonly number[]): string {
  let set = 'ABC'[start - 103] ?? '?';
  let said = '';
  for (const value of data) {
    if (set === 'C' && value < 100) said += String(value).padStart(2, '0');
    else if (value === 99) set = 'C';
    else if (value === 100) set = 'B';
    else if (value === 101) set = 'A';
    else said += String.fromCharCode(value < 64 || set === 'B' ? value + 32 : value - 64);
  }
  return said;
}

test('the check symbol of PJJ123C in code set A is 54: the example that is commonly given', () => {
  expect(checkOf(103, [48, 42, 42, 17, 18, 19, 35])).toBe(54);
});

test('a bar code says exactly the text, and its check symbol is the standard’s', () => {
  const texts = fc.string({
    unit: fc.integer({ min: 32, max: 126 }).map((code) => String.fromCharCode(code)),
    minLength: 1,
    maxLength: 40,
  });
  fc.assert(
    fc.property(fc.oneof(texts, fc.stringMatching(/^B-\d{4,9}$/)), (text) => {
      const values = valuesOf(code128Modules(text) ?? []);
      const [start = -1, ...rest] = values;
      const data = rest.slice(0, -1);
      expect([103, 104, 105]).toContain(start);
      expect(rest.at(-1)).toBe(checkOf(start, data));
      expect(textOf(start, data)).toBe(text);
    }),
  );
});

test('letters that Code 128 has not are no bar code', () => {
  for (const text of ['', 'Б-1041', 'B-1041\n', 'Ö-1', 'B\u00c81']) expect(code128Modules(text)).toBeNull();
});
