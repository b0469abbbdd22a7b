import { expect, test } from 'vitest';
import { newPin } from '../../src/app/pin-words.ts';

test.each(['7305', '735000000001', 'walking foot'.replace(' ', '-'), 'nähfuß'])('%s may be a PIN', (typed) => {
  expect(newPin(typed)).toEqual({ ok: true, value: typed });
});

test.each([
  ['305', 'pin-shape'],
  ['7305000000012', 'pin-shape'],
  ['', 'pin-shape'],
  ['abcde', 'pin-shape'],
  ['two words', 'pin-shape'],
  ['73 05', 'pin-shape'],
  ['73\u001b[2J05', 'pin-shape'],
  ['x1'.repeat(33), 'pin-shape'],
  ['0000', 'pin-easy'],
  ['1212', 'pin-easy'],
  ['1234', 'pin-easy'],
  ['987654', 'pin-easy'],
  ['abcdef', 'pin-easy'],
])('%j may not, and is not repeated in the refusal', (typed, rule) => {
  const refused = newPin(typed);
  expect(refused).toMatchObject({ ok: false, error: { rule } });
  if (!refused.ok && typed.length > 2) expect(refused.error.message).not.toContain(typed);
});
