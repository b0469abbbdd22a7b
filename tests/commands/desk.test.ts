import { join } from 'node:path';
import { expect, test } from 'vitest';
import { desk } from '../../src/commands/desk.ts';
import { wordsOf } from '../../src/commands/edit-files.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

async function deskOf(options: { readonly json?: boolean }) {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  return called((io) => desk({ room: join(cwd, 'room'), ...options }, io), cwd);
}

test('into a pipe the desk is a list, and a hold that waits is bad news', async () => {
  const { code, out, err } = await deskOf({});
  expect([code, err]).toEqual([1, '']);
  expect(out).toMatch(
    /^On hold, waiting for a supervisor\n {2}H-030.*\n {2}H-032.*\nBundles\n[\s\S]*\nProcedures\n {2}CUS-0412/,
  );
});

test('for programs it has fields, the oldest hold first', async () => {
  const { code, out } = await deskOf({ json: true });
  const rows = JSON.parse(out);
  expect(code).toBe(1);
  expect(rows[0]).toMatchObject({
    kind: 'hold',
    ticket: 'B-1043',
    revision: 'B',
    hold: { name: 'H-030', by: 'OP-04' },
  });
  expect(rows.find(({ ticket }: { ticket?: string }) => ticket === 'B-1041')).toMatchObject({
    kind: 'bundle',
    work: 'paused',
    hand: 'OP-02',
  });
  expect(rows.at(-1)).toMatchObject({
    kind: 'draft',
    procedure: 'LIN-2207',
    revision: 'C',
    isReleased: true,
    errors: 0,
    changes: 0,
  });
});

test.each([
  ['nano', ['nano']],
  ['code -w', ['code', '-w']],
  ['"/opt/my editor/ed" -n', ['/opt/my editor/ed', '-n']],
  [`ed --rc="a b" 'c d'`, ['ed', '--rc=a b', 'c d']],
  ['  ', []],
])('an editor is named with what it takes, without a shell: %s', (line, words) => expect(wordsOf(line)).toEqual(words));
