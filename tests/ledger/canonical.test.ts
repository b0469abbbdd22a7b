import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalText } from '../../src/ledger/canonical.ts';
import type { Json } from '../../src/ledger/entry.ts';

it('comes back as the same value, in the same words', () => {
  fc.assert(
    fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
      const text = canonicalText(value as Json);
      // Canonical JSON knows one zero only.
      expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      expect(canonicalText(JSON.parse(text))).toBe(text);
    }),
  );
});

it('does not depend on the order in which members were given', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string({ unit: 'binary' }), fc.jsonValue()), (value) => {
      const turned = Object.fromEntries(Object.entries(value).reverse());
      expect(canonicalText(turned as Json)).toBe(canonicalText(value as Json));
    }),
  );
});

it.each([['\ud800'], ['a\udc00b'], [{ note: '\ud83d' }], [{ '\udfff': 1 }], [['\udbff\ud800']]])(
  'refuses the lone surrogate in %j',
  (value) => {
    expect(() => canonicalText(value)).toThrow('Lone surrogate');
  },
);

it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('refuses %d', (value) => {
  expect(() => canonicalText({ reading: [value] })).toThrow('no canonical JSON text');
});
