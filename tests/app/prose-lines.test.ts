import { expect, test } from 'vitest';
import { proseLines } from '../../src/app/prose-lines.ts';

test.each([
  ['a paragraph', 'Raw edges to\nthe *pencil\nline*.\n\nThen stop.', ['Raw edges to the pencil line.', 'Then stop.']],
  ['a list', 'Keep:\n- the red\n  ones\n- the blue\n1. all', ['Keep:', '- the red ones', '- the blue', '1. all']],
  ['a table', '| a | b |\n|---|---|\n| 1 | 2 |', ['| a | b |', '|---|---|', '| 1 | 2 |']],
])('%s reads in its own lines, wherever its file breaks them', (_, text, lines) =>
  expect(proseLines(text)).toEqual(lines),
);
