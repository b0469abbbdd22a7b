import { spawnSync } from 'node:child_process';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { startTerminal } from '../screens/real-terminal.ts';
import { type Blank, blanksOf, practiceRoom, program, quietEnv, verasPin, walkfoot, who } from './lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeEach(() => {
  room = practiceRoom();
});
afterEach(() => room.remove());

/** A ticket of the practice room that nobody has begun. */
const TICKET = 'B-1047';
/** So long after its ticket was made, as it would be written on paper. */
function written(minutes: number): string {
  const [made] = who(room.folder, TICKET);
  const ms = Date.parse(made?.at ?? '') + minutes * 60_000;
  // The program is run in the time zone of this test.
  const local = new Date(ms - new Date(ms).getTimezoneOffset() * 60_000).toISOString();
  return local.slice(0, 16).replace('T', ' ');
}

const PAPER = ['--for', 'Ines', '--by', 'Vera', '--at'];

/** Types these lines in behind the PIN. */
function keyIn(lines: readonly string[], at = written(10)) {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    [program, 'key-in', TICKET, ...PAPER, at, '--room', room.folder],
    { env: quietEnv(), encoding: 'utf8', input: [verasPin, ...lines].map((line) => `${line}\n`).join('') },
  );
  return { out: stdout, err: stderr, code: status };
}

/** What stands on the paper at a blank: read cautions, the answer, and under a hold point who signed, for which Vera’s PIN is asked. */
const onPaper = (blank: Blank): readonly string[] => [
  ...Array.from({ length: blank.cautions }, () => ''),
  blank.kind === 'hold point' ? 'Henk' : blank.answer,
  ...(blank.kind === 'hold point' ? [verasPin] : []),
];
test('a whole bundle typed in from paper has the answers of one played at the machine, and says whence they are', () => {
  const blanks = blanksOf(room.folder);
  const [begun, later] = [written(10), written(95)];
  const lines = blanks.flatMap((blank, index) => [...(index === 40 ? [`@${later}`] : []), ...onPaper(blank)]);
  const typed = keyIn([...lines, '2', '']);
  expect(typed.err).toBe('');
  expect(typed.code).toBe(0);
  const rows = who(room.folder, TICKET) as unknown as readonly Record<string, unknown>[];
  const checks = rows.filter(({ kind }) => kind === 'checked');
  expect(checks.map(({ point, set, place }) => [point, set, place])).toEqual(
    blanks.map(({ point, set, place }) => [point, set, place]),
  );
  for (const [at, row] of checks.entries()) {
    expect(row).toMatchObject({ name: 'Ines', typedBy: 'Vera', meaning: expect.stringContaining('typed from paper') });
    expect(String(row.doneAt).slice(0, 16)).toBe((at < 40 ? begun : later).replace(' ', 'T'));
    expect(Date.parse(String(row.at))).toBeGreaterThan(Date.parse(String(row.doneAt)));
  }
  expect(rows.at(-1)).toMatchObject({ kind: 'finished' });
  // One line, and so one enter, for each tick: nothing is typed but what the paper says.
  expect(blanks.filter(({ kind }) => kind === 'tick').every((blank) => onPaper(blank).at(-1) === '')).toBe(true);
  expect(walkfoot('verify', '--room', room.folder)).toContain('is intact');
});

test('a line that is refused ends it, what was before stands, and typing goes on from there', () => {
  const broken = keyIn(['22', '', 'R-1', 'R-2', '7', '']);
  expect(broken.code).toBe(2);
  expect(broken.err).toMatch(/Line 6 was refused: Choose one of: 1 match.*go on from there/);
  expect(who(room.folder, TICKET).filter(({ kind }) => kind === 'checked')).toHaveLength(4);
  const rest = keyIn(['1', '-'], written(20));
  expect(rest).toMatchObject({ code: 0, err: '' });
  expect(who(room.folder, TICKET).filter(({ kind }) => kind === 'checked')).toHaveLength(5);
  expect(walkfoot('sew', TICKET, '--hand', 'Ines', '--plain', '--room', room.folder)).toContain(
    'Revision on the ticket',
  );
});

test('a time that cannot be is refused where it is typed, and the help names what paper knows', () => {
  const wrong = keyIn(['22', `@${written(5)}`]);
  expect(wrong.code).toBe(2);
  expect(wrong.err).toMatch(/Line 3 was refused: The entry before was at .*, and this one would be earlier/);
  expect(keyIn(['@2036-11-25 06:00'], written(20)).err).toMatch(/Line 2 was refused: That time is still to come/);
  const help = keyIn(['?'], written(20)).out;
  expect(help).toContain('`@10:42`');
  expect(help).not.toMatch(/`strike|`undo`|`settle`|`hands over/);
});

test.each([
  ['a wrong PIN', ['7306'], undefined, /Line 1 was refused: That is not the PIN of Vera/],
  ['a time to come', [], '2036-11-25 06:00', /still to come/],
  ['no time', [], 'at noon', /such as @10:42/],
])('%s is a sentence, exit 2, and nothing is recorded', (_, first, at, words) => {
  const { stderr, status } = spawnSync(
    process.execPath,
    [program, 'key-in', TICKET, ...PAPER, at ?? written(10), '--room', room.folder],
    { env: quietEnv(), encoding: 'utf8', input: first.map((line) => `${line}\n`).join('') },
  );
  expect(status).toBe(2);
  expect(stderr).toMatch(words);
  expect(who(room.folder, TICKET).filter(({ kind }) => kind !== 'ticketed')).toEqual([]);
});

test('at a terminal every enter counts, also the first one behind the PIN', async () => {
  const typing = startTerminal({
    command: process.execPath,
    args: [program, 'key-in', TICKET, ...PAPER, written(10), '--room', room.folder],
  });
  await typing.waitFor('PIN of Vera >');
  await typing.press(...verasPin, '\r');
  await typing.waitFor('22 pcs >');
  // Words stay whole at the terminal's edge.
  expect(typing.text()).toContain('One missing piece found now\nsaves a half-sewn lining.');
  await typing.press('\r');
  await typing.waitFor(/22 pcs >\n.*\n.*22 pcs >/);
  await typing.press(...'22', '\r');
  await typing.waitFor('[1/');
  await typing.press('\x04');
  expect((await typing.exited).code).toBe(0);
  expect(who(room.folder, TICKET).filter(({ kind }) => kind === 'checked')).toHaveLength(1);
});
