import { expect, test } from 'vitest';
import { seamsSaid } from '../../src/app/seam-words.ts';
import { inEnglish } from '../../src/words/say.ts';

const said = (stitchLength: string | null) =>
  seamsSaid(inEnglish, { text: 'T1, stitch 301', ids: ['T1'], stitch: '301', stitchLength, visible: false });

test('a stitch length is said over each length that gauges count over', () =>
  expect(said('4')).toBe('Seams: T1, stitch 301 (25 st/100mm, 6.3 st/25mm, 6.4 spi)'));

// A text that an older reader understood may have it.
test.each([null, '0'])('a seam without a stitch length is said as it is written: %s', (length) =>
  expect(said(length)).toBe('Seams: T1, stitch 301'),
);
