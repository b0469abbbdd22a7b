import { expect, it } from 'vitest';
import { verifierKeyText } from '../../src/ledger/note-key.ts';
import { receipt, tampered, verifier } from '../ledger/receipt-story.ts';
import { pythonSays } from './python-says.ts';

const key = verifierKeyText(verifier);
const found = '5 entries of B-1041, in a ledger of 10 entries of table-1';

it('agrees that an untouched receipt is intact', () => {
  expect(pythonSays(receipt, key)).toEqual({ code: 0, said: expect.stringContaining(`intact: ${found}`) });
});

it.each(tampered)('agrees in finding %s', (_, text, rule) => {
  const { code, said } = pythonSays(text, key);
  // Only a signature shows that the last entry is gone from the list too.
  if (said.includes('SIGNATURES NOT CHECKED')) expect(rule).toBe('note-signature');
  else expect({ code, said }).toEqual({ code: 1, said: expect.stringMatching(/^wrong: /) });
});

it('says so when signatures cannot be checked, and finds what hashes alone find', () => {
  expect(pythonSays(receipt, key, 'not checked').said).toMatch(new RegExp(`^intact: ${found}\nSIGNATURES NOT CHECKED`));
  expect(pythonSays(receipt.replace('"turn":2', '"turn":3'), key, 'not checked')).toEqual({
    code: 1,
    said: 'wrong: entry 4 does not lead to the checkpoint\n',
  });
});
