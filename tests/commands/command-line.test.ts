import { spawnSync } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { practiceRoom, program, quietEnv } from '../playthrough/lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

interface Ran {
  readonly out: string;
  readonly err: string;
  readonly code: number | null;
}

/** Runs the bundled program in the practice room's folder, its input at an end. */
const walkfoot = (...args: readonly string[]): Ran => told('', ...args);

/** The same with something to read. */
function told(input: string, ...args: readonly string[]): Ran {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args], {
    cwd: room.folder,
    env: quietEnv(),
    encoding: 'utf8',
    input,
  });
  return { out: stdout, err: stderr, code: status };
}

const ON_C = ['who', '--procedure', 'LIN-2207', '--revision', 'C'];

const commands = [
  'sew',
  'rehearse',
  'proofread',
  'outline',
  'changes',
  'release',
  'ticket',
  'sheet',
  'hands',
  'hand add',
  'hand pin',
  'hand skill',
  'hand language',
  'hand list',
  'hand retire',
  'who',
  'demo',
];

/** Of those that have more than one example. */
const howMany: Readonly<Record<string, number>> = { who: 8, hands: 2, ticket: 3, sheet: 4 };

describe('the examples in each command’s help are true ones', () => {
  // What would be the same text, or is taken, in the practice room says so: that is an answer too, and tried below.
  test.each(commands.filter((name) => name !== 'demo' && name !== 'release'))('%s', (name) => {
    const { out } = walkfoot(...name.split(' '), '--help');
    const examples = [...out.matchAll(/^Example: walkfoot (.*)$/gm)].map(([, words = '']) => words);
    expect(examples.length).toBe(howMany[name] ?? 1);
    // The practice room's Vera signs with this PIN, and Maj may choose it.
    const input = name.startsWith('hand') ? '7305\n' : '';
    for (const example of examples) {
      const words = [...example.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
      const free = words.map((word) => (name === 'hand add' && word === 'Ines' ? 'Yara' : word));
      const ran = told(input, ...free);
      expect(ran).toMatchObject({ code: 0, err: '' });
      expect(ran.out).not.toContain('Nothing is recorded');
    }
  });
});

test('release freezes a changed draft, and refuses the same text with the way out', () => {
  expect(walkfoot('release', 'LIN-2207', '--hand', 'Vera')).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringContaining('change the file'),
  });
});

test('a command that is signed takes its PIN as a line of standard input, and says what is wrong without it', () => {
  const add = ['hand', 'add', 'Nell', '--hand', 'Henk'];
  expect(walkfoot(...add)).toMatchObject({ code: 2, err: expect.stringContaining('one line of standard input') });
  const wrong = told('4693\n', ...add);
  expect(wrong).toMatchObject({ code: 2, err: expect.stringContaining('not the PIN of Henk') });
  expect(told('4692\n', ...add)).toMatchObject({ code: 0, err: '' });
  const recorded = walkfoot('who', '--json').out;
  expect(recorded).toContain('Henk, for “enrolled”');
  expect(recorded).toContain('enrolled with PIN');
  for (const secret of ['4692', '4693', 'salt']) expect(recorded + wrong.err).not.toContain(`"${secret}`);
  expect(recorded).not.toMatch(/[0-9a-f]{32}/);
});

test('a PIN is set, changed with the one before, and chosen anew when a supervisor lets it', () => {
  const pin = (lines: string, ...args: readonly string[]) => told(lines, 'hand', 'pin', ...args);
  expect(pin('1234\n', 'Tomas')).toMatchObject({ code: 2, err: expect.stringContaining('first anybody tries') });
  expect(pin('8316\n', 'Tomas')).toMatchObject({ code: 0, err: '' });
  expect(pin('8317\n5920\n', 'Tomas')).toMatchObject({ code: 2, err: expect.stringContaining('not the PIN of Tomas') });
  expect(pin('8316\n5920\n', 'Tomas')).toMatchObject({ code: 0, err: '' });
  expect(pin('7305\n6038\n', 'Tomas', '--hand', 'Vera')).toMatchObject({ code: 0, err: '' });
  expect(pin('6038\n5920\n', 'Tomas', '--hand', 'Ines')).toMatchObject({ code: 2 });
});

test('the room is named before the command or behind it', () => {
  const [before, behind] = [
    walkfoot('--room', room.folder, 'who', 'B-1046'),
    walkfoot('who', 'B-1046', '--room', room.folder),
  ];
  expect(before.code).toBe(0);
  expect(before).toEqual(behind);
});

test.each([
  ['a room that is none', ['who', '--room', '/'], 2, /There is no room/],
  ['a command that is none', ['whoo'], 2, /did you mean who/],
  ['an option that is none', ['who', '--jsn'], 2, /unknown option/],
  ['a ticket that is none', ['who', 'B-1'], 2, /no ticket B-1/],
  ['a ticket in small letters', ['who', 'b-1046'], 0, /^$/],
  ['a step beyond the last', ['who', 'B-1041', '--step', '13'], 2, /has 12 steps, and no step 13: ask for one from 1/],
  ['a step before the first', ['who', 'B-1041', '--step', '0'], 2, /has 12 steps, and no step 0/],
  ['a step beyond every last', ['who', '--step', '99', '--hand', 'Ines'], 2, /longest procedure .* has 12 steps/],
  ['a step of what is unopened', ['who', 'B-1047', '--step', '1'], 2, /has not been opened.*leave out --step/],
  ['a text beyond the last', ['who', 'B-1041', '--step', '13', '--text'], 2, /has 12 steps/],
  ['a text of no step', ['who', 'B-1041', '--text'], 2, /such as `walkfoot who B-1041 --step 9 --text`/],
  ['a text of no ticket', ['who', '--step', '9', '--text'], 2, /such as `walkfoot who B-1041 --step 9 --text`/],
  ['a text for one hand', ['who', 'B-1041', '--step', '9', '--text', '--hand', 'Ines'], 2, /leave out --hand/],
  ['two questions', ['who', '--roll', 'R-318', '--repeated'], 2, /two questions: ask one at a time/],
  ['a roll of a ticket', ['who', 'B-1041', '--roll', 'R-318'], 2, /whole room: leave out B-1041/],
  ['a roll of a step', ['who', '--roll', 'R-318', '--step', '4'], 2, /leave out --step 4/],
  ['a roll without a name', ['who', '--roll', ''], 2, /such as --roll R-318/],
  ['a revision of nothing', ['who', '--revision', 'C'], 2, /--revision belongs to a procedure: say which/],
  ['a skill of nothing', ['who', '--skill', 'binding'], 2, /--skill belongs to a procedure: say which/],
  ['a procedure of a ticket', ['who', 'B-1041', '--procedure', 'LIN-2207'], 2, /leave out B-1041/],
  ['a procedure that is none', ['who', '--procedure', 'NOPE'], 2, /there are LIN-2207, CUS-0412, HOD-0931, CUT-0100/],
  [
    'a revision that is none',
    ['who', '--procedure', 'LIN-2207', '--revision', 'Z'],
    2,
    /no revision Z: there are A, B, C/,
  ],
  ['a skill that is none', [...ON_C, '--skill', 'welding'], 2, /there are sleeve to line, perforated join, top-st/],
  ['two names of an operation', [...ON_C, '--skill', 'top-stitch vinyl', '--step', '9'], 2, /leave out one of them/],
  ['a step of no revision', ['who', '--procedure', 'LIN-2207', '--step', '9'], 2, /such as --revision C/],
  ['an operation beyond the last', [...ON_C, '--step', '13'], 2, /LIN-2207 revision C has 12 steps/],
  ['a day that is none', ['who', '--since', '2026-02-30'], 2, /A time is given/],
  ['a finished bundle', ['sew', 'B-1046', '--hand', 'Ines'], 2, /finished/],
  ['a hand that is none', ['sew', 'B-1047', '--hand', 'Zoe'], 2, /Nobody here is called Zoe/],
  ['a hand that may only read', ['sew', 'B-1047', '--hand', 'Ruth'], 2, /only reads here/],
  ['an unreleased procedure', ['ticket', 'NOPE'], 2, /No revision of NOPE is in use/],
  ['a ticket of nothing', ['ticket'], 2, /such as `walkfoot ticket LIN-2207 --label`/],
  ['a label instead of a procedure', ['ticket', '--label', 'LIN-2207'], 2, /Say first which procedure/],
  ['a ticket both new and again', ['ticket', 'LIN-2207', '--again', 'B-1047'], 2, /leave out LIN-2207/],
  ['sets of a ticket there is', ['ticket', '--again', 'B-1047', '--sets', '2'], 2, /cannot be used with/],
  ['a label of no ticket', ['ticket', '--again', 'B-1'], 2, /no ticket B-1/],
  ['a sheet of nothing', ['sheet', 'B-1'], 2, /No procedure B-1/],
  ['a sheet of a finished bundle', ['sheet', 'B-1046'], 2, /finished/],
  ['a sheet on another paper', ['sheet', 'LIN-2207', '--paper', 'A3'], 2, /A4, Letter/],
  ['no sets', ['ticket', 'LIN-2207', '--sets', '0'], 2, /1 to 999 sets/],
  ['a ticket that climbs', ['ticket', 'LIN-2207', '--name', '../x'], 2, /named by up to 40/],
  ['a file that is none', ['proofread', 'nope.md'], 2, /nope\.md/],
])('%s is answered, a refusal in one line on standard error', (_, args, code, said) => {
  const ran = walkfoot(...args);
  expect(ran).toMatchObject({ code, err: expect.stringMatching(said) });
  if (code === 2 && !/--help/.test(ran.err)) expect(ran.err.trimEnd().split('\n')).toHaveLength(1);
});

test('nothing a terminal would obey reaches it, whatever is typed behind a command', () => {
  const hostile = 'x\x1b]0;title\x07\x9b2J\u202ey';
  const ran = [
    walkfoot('hand', 'add', hostile, '--hand', 'Vera'),
    walkfoot('hand', 'add', 'Yan', '--id', hostile, '--hand', 'Vera'),
    walkfoot('outline', `${hostile}${'x'.repeat(300)}`),
    walkfoot('demo', hostile),
    walkfoot('hand', 'list'),
    walkfoot('hand', 'list', '--json'),
    walkfoot('ticket', 'LIN-2207', '--roll', hostile),
    walkfoot('who', hostile),
    walkfoot('who', '--hand', hostile),
    walkfoot(hostile),
    walkfoot('who', `--${hostile}`),
    walkfoot('proofread', hostile),
    walkfoot('sew', hostile, '--hand', hostile),
  ];
  for (const { out, err } of ran) expect(out + err).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]/);
});
