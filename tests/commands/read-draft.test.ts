import { expect, test } from 'vitest';
import { patientProofreader } from '../../src/commands/read-draft.ts';

test('a text that stands as it stood is not proofread twice; one that was saved is, and so is the same under another name', () => {
  const proof = patientProofreader();
  const text = '# A procedure\n';
  const first = proof(text, 'a.md');
  expect(proof(text, 'a.md')).toBe(first);
  expect(proof(text, 'b.md')).not.toBe(first);
  expect(proof('# Another\n', 'a.md').procedure.title).toBe('Another');
  expect(proof(text, 'a.md')).toEqual(first);
});
