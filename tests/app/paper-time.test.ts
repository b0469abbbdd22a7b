import { expect, test } from 'vitest';
import { paperStamp } from '../../src/app/paper-time.ts';

/** Summer time from 29 March on. */
const offsetAt = (wall: string): number => (wall < '2026-03-29T02:00' ? 60 : 120);
const stamp = (text: string, before = '2026-03-28T09:00:00.000+01:00') => {
  const read = paperStamp(text, before, offsetAt);
  return read.ok ? read.value : read.error.rule;
};

test('a time of a paper has the offset of its own day', () => {
  expect(stamp('16:45')).toBe('2026-03-28T16:45:00.000+01:00');
  expect(stamp('2026-03-30 8.05')).toBe('2026-03-30T08:05:00.000+02:00');
});

test.each(['', 'noon', '24:00', '9:5', '2026-02-30 10:00', '10:42:13'])('what is no time is refused: %j', (text) =>
  expect(stamp(text)).toBe('paper-time'),
);
