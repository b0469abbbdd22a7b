import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { startTerminal } from '../screens/real-terminal.ts';
import { blanksOf, linesOf, practiceRoom, program, quietEnv, verasPin, walkfoot, who } from './lining.ts';

test('a PIN typed at a terminal is not seen there, for a command and in a dialogue', async () => {
  const room = practiceRoom();
  try {
    const start = (...args: readonly string[]) =>
      startTerminal({
        command: process.execPath,
        args: [program, ...args, '--room', room.folder],
        columns: 80,
        rows: 24,
      });
    const pin = start('hand', 'pin', 'Maj');
    await pin.waitFor('New PIN of Maj');
    await pin.press(...'8317', '\x7f', '6', '\r');
    await pin.waitFor('once more');
    await pin.press(...'8316', '\r');
    await pin.waitFor('Maj (OP-04) has a new PIN.');
    expect((await pin.exited).code).toBe(0);
    expect(pin.text()).not.toMatch(/831/);

    const given = start('hand', 'pin', 'Maj');
    await given.waitFor('PIN of Maj');
    await given.press('\x03');
    expect((await given.exited).code).toBe(2);

    const sew = start('sew', 'B-1045', '--hand', 'Ines', '--plain');
    await sew.waitFor('On hold >');
    for (const [line, next] of [
      ['settle', 'Who settles it?'],
      ['Vera', 'How?'],
      ['rework', 'Back to which step?'],
      ['', 'Why so?'],
      ['kit again', 'PIN of Vera >'],
    ] as const) {
      await sew.press(...line, '\r');
      await sew.waitFor(next);
    }
    await sew.press(...verasPin, '\r');
    await sew.waitFor('H-032 is settled: rework.');
    expect(sew.text()).not.toContain(verasPin);
    await sew.press(...'leave', '\r');
    expect((await sew.exited).code).toBe(0);
    expect(walkfoot('who', 'B-1045', '--room', room.folder)).toMatch(/settled: H-032.*; with PIN/s);
  } finally {
    room.remove();
  }
});

test('a lining by somebody in training, line by line: who stood by, who looked, who settled, with which proof', () => {
  const room = practiceRoom();
  const at = ['--room', room.folder];
  const told = (
    input: readonly string[],
    ...args: readonly string[]
  ): { readonly out: string; readonly code: number | null } => {
    const { stdout, status } = spawnSync(process.execPath, [program, ...args, ...at], {
      env: quietEnv(),
      encoding: 'utf8',
      input: input.map((line) => `${line}\n`).join(''),
    });
    return { out: stdout, code: status };
  };
  try {
    expect(told([verasPin], 'hand', 'skill', 'Maj', 'sleeve to line', '2', '--hand', 'Vera')).toMatchObject({
      code: 0,
      out: 'Maj: sleeve to line, 2 with help.\n',
    });
    // She sewed the revision before, so she reads the three things that changed.
    const lines: string[] = ['', '', ''];
    let helpers: readonly string[] = ['Maj', 'Ines'];
    let wrong: readonly string[] = ['7304'];
    for (const blank of blanksOf(room.folder)) {
      if (blank.isFirst && blank.skill !== null) {
        lines.push(...helpers);
        helpers = ['Ines'];
      }
      const typed = linesOf(blank);
      lines.push(...(blank.kind === 'hold point' ? [...typed.slice(0, -1), ...wrong, verasPin] : typed));
      if (blank.kind === 'hold point') wrong = [];
    }
    const played = told([...lines, '2', ''], 'sew', 'B-1047', '--hand', 'Maj');
    expect(played.out).toContain('This step needs sleeve to line, which you do at level 2, with help.');
    expect(played.out).toContain('Nobody stands by for themselves: name Ines / Tomas.');
    expect(played.out).toContain('That is not the PIN of Vera: type it again.');
    expect(played.out).toContain('Finished: 2 of 2 good');
    expect(played.out).toMatch(/witnessed: Vera with PIN, \d+ \w+ \d{4} \d\d:\d\d/);
    expect(played.code).toBe(0);

    const rows = who(room.folder, 'B-1047');
    const helped = rows.filter(({ kind }) => kind === 'helped');
    expect(helped.map(({ set, step, value }) => `${set} ${step} ${value}`)).toEqual(
      [1, 2].flatMap((set) => [4, 6, 7, 9].map((step) => `${set} ${step} Ines`)),
    );
    const looked = rows.filter(({ witness }) => witness === 'Vera');
    expect(looked.length).toBeGreaterThan(2);
    expect(looked.every(({ meaning }) => meaning === 'witnessed with PIN')).toBe(true);
    const all = JSON.parse(walkfoot('who', '--json', ...at)) as readonly {
      readonly kind: string;
      readonly value: string;
    }[];
    expect(all.find(({ kind }) => kind === 'pin-failed')?.value).toBe('Vera, for “witnessed”');
  } finally {
    room.remove();
  }
});
