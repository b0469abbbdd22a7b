import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { panel, type SignalWord } from '../../src/widgets/panel.ts';
import { rowColumns, rowText } from '../../src/widgets/row.ts';

const needle =
  'Needle. The needle can go through your finger. Take your foot off the treadle before your hand goes near it.';

function drawn(word: SignalWord, width: number, height: number) {
  const { band, message } = panel({ word, said: word, text: needle, width, height });
  return { band: band.map(rowText), message: message.map((row) => rowText(row).trim()), rows: [...band, ...message] };
}

describe('a caution', () => {
  test('has its signal word, the sign, and each sentence by itself in the middle', () => {
    const { band, message, rows } = drawn('WARNING', 60, 13);
    expect(band.map((line) => line.trimEnd())).toEqual(['    ^', '   /!\\    W A R N I N G', '  /___\\']);
    expect(message).toEqual([
      '',
      '',
      'Needle.',
      '',
      'The needle can go through your finger.',
      '',
      'Take your foot off the treadle before your hand goes',
      'near it.',
      '',
      '',
    ]);
    expect(rows).toHaveLength(13);
  });

  test('for material only has no sign, since nobody can be hurt', () => {
    expect(drawn('NOTICE', 60, 13).band.map((line) => line.trim())).toEqual(['', 'N O T I C E', '']);
    expect(drawn('NOTICE', 60, 8).band.map((line) => line.trim())).toEqual(['NOTICE']);
  });

  test('fills its band from edge to edge in its own style', () => {
    for (const word of ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const) {
      for (const row of panel({ word, said: word, text: needle, width: 60, height: 20 }).band) {
        expect(rowColumns(row)).toBe(60);
        expect(row.every(({ style }) => style === word.toLowerCase())).toBe(true);
      }
    }
  });

  test('moves together when there is less room, and keeps every word when there is too little', () => {
    expect(drawn('DANGER', 40, 5).message).toEqual([
      'Needle. The needle can go through',
      'your finger. Take your foot off the',
      'treadle before your hand goes near',
      'it.',
    ]);
    const tiny = drawn('DANGER', 14, 3);
    expect(tiny.message.length).toBeGreaterThan(2);
    expect(tiny.message.join('').replaceAll(' ', '')).toBe(needle.replaceAll(' ', ''));
  });

  test('of any text at any size is never wider, and never shorter than its room', () => {
    fc.assert(
      fc.property(
        fc.lorem({ maxCount: 40 }),
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 60 }),
        (text, width, height) => {
          const { band, message } = panel({ word: 'CAUTION', said: 'CAUTION', text, width, height });
          expect(Math.max(...[...band, ...message].map(rowColumns))).toBeLessThanOrEqual(width);
          expect(band.length + message.length).toBeGreaterThanOrEqual(height);
          if (width > 1) expect(message.map(rowText).join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        },
      ),
    );
  });
});
