import { expect, test } from 'vitest';
import { formatStamp, parseStamp } from '../../src/base/instant.ts';
import examples from './data/rfc3339.json' with { type: 'json' };

const ordinary = examples.cases.filter(({ ms }) => ms !== null);
const leapSeconds = examples.cases.filter(({ ms }) => ms === null);

test.each(ordinary)(`$stamp is $ms ms after 1970: ${examples.source}`, ({ stamp, ms }) => {
  const instant = parseStamp(stamp);
  expect(instant?.ms).toBe(ms);
  expect(instant && parseStamp(formatStamp(instant))).toEqual(instant);
});

// A leap second has no number of milliseconds of its own, and no clock a station runs on shows one.
test.each(leapSeconds)(`the leap second $stamp is refused: ${examples.source}`, ({ stamp }) => {
  expect(parseStamp(stamp)).toBeUndefined();
});

test('T and Z may be small: RFC 3339 section 5.6', () => {
  expect(parseStamp('1985-04-12t23:20:50.52z')).toEqual(parseStamp('1985-04-12T23:20:50.52Z'));
});

test.each([
  '1985-13-01T00:00:00Z',
  '1985-04-12T23:60:00Z',
  '1985-04-12T23:00:00+24:00',
  '1985-04-12 23:00:00',
  '1985-04-12T23:20:50,5Z',
])('%s is no date-time: RFC 3339 sections 5.6 and 5.7', (stamp) => {
  expect(parseStamp(stamp)).toBeUndefined();
});

// Not yet: the reader of stamps takes these over from the engine's own parser, which rolls them on to the next day.
test.each(['1985-02-30T00:00:00Z', '1985-04-31T00:00:00Z', '1900-02-29T00:00:00Z', '1985-04-12T24:00:00Z'])(
  '%s is no date-time: RFC 3339 section 5.7',
  (stamp) => {
    expect(parseStamp(stamp)).toBeUndefined();
  },
);
