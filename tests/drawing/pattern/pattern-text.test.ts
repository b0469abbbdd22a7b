import { expect, test } from 'vitest';
import { patternText } from '../../../src/drawing/pattern/pattern-text.ts';

/** A file whose header names its letters, with these bytes behind it. */
const file = (page: string, ...bytes: readonly number[]): Uint8Array =>
  Buffer.concat([Buffer.from(`9\r\n$DWGCODEPAGE\r\n  3\r\n${page}\r\n1\r\n`), Buffer.from(bytes)]);
const last = (bytes: Uint8Array): string => patternText(bytes).split('\n').at(-1) ?? '';

test.each([
  ['ANSI_1252', [0xc4], 'Ä'],
  ['ansi_1250', [0xb3], 'ł'],
  ['ANSI_1258', [0xd0], 'Đ'],
  ['ANSI_936', [0xd6, 0xd0], '中'],
  ['ANSI_932', [0x93, 0xfa], '日'],
  ['ANSI_949', [0xc7, 0xd1], '한'],
  ['ANSI_950', [0xa4, 0xa4], '中'],
  ['another', [0xc4], 'Ä'],
] as const)('in the letters of %s', (page, bytes, letter) => expect(last(file(page, ...bytes))).toBe(letter));

test('UTF-8 is read as that, whatever the header says', () =>
  expect(last(file('ANSI_1252', ...Buffer.from('Đ中')))).toBe('Đ中'));

test('no file ends in an error', () => expect(patternText(Uint8Array.of(0xff, 0xfe, 0, 0x80))).toHaveLength(4));
