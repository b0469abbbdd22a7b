import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { practiceRoom, program, quietEnv } from '../playthrough/lining.ts';
import data from '../published/data/control-functions.json' with { type: 'json' };

// The control functions are those of tests/published/control-functions.test.ts, where their source stands.

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

const hostile = [
  ...data.cases.map(({ input }) => input),
  ...[
    '\u200b',
    '\u2060',
    '\ufeff',
    '\u00ad',
    '\u061c',
    '\u202e',
    '\u2066',
    '\u2028',
    '\u2029',
    '\u{e0041}',
    '\ufff9',
  ].map((one) => `a${one}b`),
];
/** What a terminal would obey, and what would hide or turn words. */
const OBEYED = /[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u2028-\u202e\u2060-\u2069\ufeff\ufff9]|[\u{e0000}-\u{e007f}]/u;

function walkfoot(input: string, ...args: readonly string[]) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args], {
    cwd: room.folder,
    env: quietEnv(),
    encoding: 'utf8',
    input,
  });
  // The lines of CSV end in CR LF.
  expect((stdout + stderr).replaceAll('\r\n', '\n'), args.join(' ')).not.toMatch(OBEYED);
  expect(stderr, args.join(' ')).not.toMatch(/^\s+at /m);
  return { code: status, out: stdout, err: stderr };
}

test('whatever is typed as a note, a reason, an answer or a name, nothing of it reaches a terminal as more than words', () => {
  const lines = hostile.map((words) => words.replaceAll('\n', ' '));
  const typed = lines.flatMap((words) => [`note ${words}`, words, `strike ${words}`, `hold ${words}`]);
  const played = walkfoot(`${typed.join('\n')}\nleave\n`, 'sew', 'B-1047', '--hand', 'Ines');
  expect(played.code).toBe(1);
  const words = walkfoot('', 'who', 'B-1047');
  expect(words.out).toContain('Stitch 3 rows');
  for (const how of [['--json'], ['--csv']]) expect(walkfoot('', 'who', 'B-1047', ...how).code).toBe(0);
  expect(walkfoot('', 'verify')).toMatchObject({ code: 0, err: '' });
});

/** A procedure that says these words wherever words may stand. */
const procedure = (words: string, yaml: string): string => `---
procedure: WORDS
title: "Title ${yaml}"
kit:
  A: "panel ${yaml}"
values:
  word: "value ${yaml}"
---

# Heading ${words}

Above ${words} and \`code ${words}\`

## Sew ${words} {#sew}

> **WARNING** Hot iron ${words}: it burns. Let it cool.

- Seams: D1 ${words}
- If out: unpick ${words}

Some *prose ${words}* and [a link ${words}](x${words})

| a ${words} | b |
| --- | --- |
| c | d ${words} |

![A picture ${words}](../media/none.svg)

- [ ] Lies flat ${words} {word}
- [ ] Colour ____ (**red ${words}** / blue)
- [ ] Width ____ mm (12)
`;

test('what hides in a procedure is noted, and shown as marks', () => {
  for (const words of [hostile.join(' '), ...hostile.slice(0, 3)]) {
    writeFileSync(join(room.folder, 'procedures', 'words.md'), procedure(words, 'plain'));
    for (const command of ['proofread', 'outline', 'rehearse']) walkfoot('\n\n\n', command, 'procedures/words.md');
  }
});

const references = (words: string): string =>
  Array.from(words, (character) => `&#${character.codePointAt(0)};`).join('');
const escapes = (words: string): string =>
  Array.from(words, (character) => `\\U${(character.codePointAt(0) ?? 0).toString(16).padStart(8, '0')}`).join('');

test.each(hostile.map((words) => [words]))('%j written in references is played as marks', (words) => {
  const text = procedure(references(words), 'plain').replace(/^!.*$/m, '');
  writeFileSync(join(room.folder, 'procedures', 'words.md'), text);
  walkfoot('\n\n\n', 'rehearse', 'procedures/words.md');
});

test('what hides in escapes at the top is noted, and nothing is released', () => {
  const hidden = hostile.filter((words) => OBEYED.test(words));
  for (const words of [hidden.join(' '), ...hidden.slice(0, 3)]) {
    writeFileSync(join(room.folder, 'procedures', 'words.md'), procedure('plain', escapes(words)));
    const found = walkfoot('', 'proofread', 'procedures/words.md').out;
    expect(found.match(/hidden-character/g)).toHaveLength(3);
    expect(walkfoot('', 'release', 'procedures/words.md', '--hand', 'Vera').code).toBe(1);
  }
});

test('half of a surrogate pair written as an escape at the top is refused before anything is recorded', () => {
  const text = `---\nprocedure: HALF\ntitle: "Half \\ud800"\nvalues:\n  word: "\\udc00"\n---\n\n## Sew\n\n- [ ] Lies flat {word}\n`;
  writeFileSync(join(room.folder, 'procedures', 'words.md'), text);
  for (const command of ['proofread', 'outline', 'rehearse'])
    expect(walkfoot('', command, 'procedures/words.md').code).toBe(1);
  expect(walkfoot('', 'release', 'procedures/words.md', '--hand', 'Vera').code).toBe(1);
  writeFileSync(join(room.folder, 'procedures', 'words.md'), Buffer.from('procedure \xed\xa0\x80', 'latin1'));
  expect(walkfoot('', 'proofread', 'procedures/words.md').err).toMatch(/is not written in UTF-8/);
});

/** As many of them as an argument may hold: a null character ends it, and half of a surrogate pair has no bytes. */
const argument = `a${hostile.join('b').replaceAll('\0', '')}`;

const called: readonly (readonly string[])[] = [
  ['A'],
  ['who', 'A'],
  ['who', '--hand', 'A'],
  ['who', '--since', 'A'],
  ['who', '--step', 'A'],
  ['who', '--A'],
  ['proofread', 'A'],
  ['outline', 'A.md'],
  ['rehearse', '../A/A.md'],
  ['release', 'A', '--hand', 'Vera'],
  ['release', 'LIN-2207', '--hand', 'A'],
  ['ticket', 'A'],
  ['ticket', 'LIN-2207', '--name', 'A'],
  ['ticket', 'LIN-2207', '--roll', 'A'],
  ['ticket', 'LIN-2207', '--sets', 'A'],
  ['ticket', 'LIN-2207', '--label', 'A/A'],
  ['ticket', '--again', 'A'],
  ['sheet', 'A'],
  ['sheet', '../A/A.md'],
  ['sheet', 'LIN-2207', '--out', 'A/A'],
  ['sheet', 'B-1047', '--hand', 'A'],
  ['hand', 'add', 'A', '--hand', 'Vera'],
  ['hand', 'add', 'Nell', '--id', 'A', '--hand', 'Vera'],
  ['hand', 'add', 'Nell', '--badge', 'A', '--hand', 'Vera'],
  ['hand', 'add', 'Nell', '--role', 'A', '--hand', 'Vera'],
  ['hand', 'skill', 'Maj', 'A', '3', '--hand', 'Vera'],
  ['hands', '--skill', 'A'],
  ['sew', 'A'],
  ['sew', 'B-1047', '--hand', 'A'],
  ['verify', 'A', '--key', 'A'],
  ['verify', '--since', 'A'],
  ['receipt', 'A'],
  ['receipt', 'B-1042', '--out', 'A/A'],
  ['demo', 'A'],
  ['who', '--room', 'A'],
];

test.each(called.map((args) => [args.join(' '), args] as const))(
  'hidden characters in what a command is given (A) are refused, and shown as marks: %s',
  (_, args) => {
    const answer = walkfoot('7305\n', ...args.map((each) => each.replaceAll('A', argument)));
    expect(answer).toMatchObject({ code: 2, out: '' });
    expect(answer.err.length).toBeGreaterThan(20);
  },
);

test('hidden characters in the names of files are shown as marks', () => {
  const name = 'a\x1b]0;own\x07\u202eX\u200b\n';
  writeFileSync(join(room.folder, 'media', `${name}.svg`), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  const text = `---\nprocedure: NAMED\ntitle: Named\nauthor: Ines\n---\n\n## Sew\n\n![A picture](../media/${encodeURIComponent(name)}.svg)\n\n- [ ] Looks right\n`;
  writeFileSync(join(room.folder, 'procedures', `${name}.md`), text);
  for (const args of [['outline'], ['rehearse'], ['release', '--hand', 'Vera']]) {
    const [command = '', ...rest] = args;
    expect([command, walkfoot('7305\n', command, 'NAMED', ...rest).code]).toEqual([command, 0]);
  }
  walkfoot('', 'proofread');
  expect(walkfoot('', 'verify')).toMatchObject({ code: 0, err: '' });
});
