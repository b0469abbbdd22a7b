import { expect, test } from 'vitest';
import { stripControls } from '../../src/base/strip-controls.ts';
import { showHidden } from '../../src/base/text.ts';
import data from './data/control-functions.json' with { type: 'json' };

// Source stands in data/control-functions.json.

test.each(data.cases)('stripped: $name', ({ input, expected }) => {
  expect(stripControls(input)).toBe(expected);
});

test.each(data.cases)('shown: $name leaves nothing to obey', ({ input }) => {
  expect(showHidden(input)).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]/);
});
