import { expect, test } from 'vitest';
import { startTerminal } from '../screens/real-terminal.ts';
import { practiceRoom, program, verasPin, walkfoot } from './lining.ts';

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
