import { expect, test } from 'vitest';
import { type RealTerminal, startTerminal } from '../screens/real-terminal.ts';
import { asRow, type Blank, blanksOf, practiceRoom, program, verasPin, type WhoRow, who } from './lining.ts';

const start = (folder: string, columns: number, rows: number): RealTerminal =>
  startTerminal({ command: process.execPath, args: [program, '--room', folder], columns, rows });

/** Ines signs on by hand; the scanner types the ticket in one burst. */
async function takeUp(terminal: RealTerminal): Promise<void> {
  await terminal.waitFor('Who is here');
  await terminal.press('I', 'n', 'e', 's', '\r');
  await terminal.waitFor('Ines is signed on');
  terminal.type('B-1047\r');
}

async function answer(terminal: RealTerminal, blank: Blank, value = blank.answer): Promise<void> {
  for (let read = 0; read < blank.cautions; read++) {
    await terminal.waitFor(/enter[^\n]* read/);
    const before = terminal.text();
    await terminal.press('\r');
    await terminal.waitFor((screen) => screen.join('\n').trimEnd() !== before);
  }
  await terminal.waitFor((screen) => isWanted(screen, blank));
  await terminal.press(...value, '\r');
  if (blank.kind === 'hold point') await signs(terminal);
}

/** Vera types her PIN, and nobody sees it. */
async function signs(terminal: RealTerminal): Promise<void> {
  await terminal.waitFor('PIN of Vera');
  await terminal.press(...verasPin);
  await terminal.waitFor('••••');
  expect(terminal.text()).not.toContain(verasPin);
  await terminal.press('\r');
}

/** The row under the needle asks for this point. */
const isWanted = (screen: readonly string[], { point }: Blank): boolean =>
  screen.some((row) => row.includes('›') && row.replace(/\s+/g, ' ').includes(point.slice(0, 24)));

test.concurrent.each([
  [80, 24],
  [60, 20],
])(
  'the lining at %i × %i: from the station to the ledger, with a reading out of its limit, a hold, a leave and a resume',
  async (columns, rows) => {
    const room = practiceRoom();
    try {
      const blanks = blanksOf(room.folder);
      const expected: Partial<WhoRow>[] = [];
      let terminal = start(room.folder, columns, rows);
      await takeUp(terminal);
      const wrongAt = blanks.findIndex(
        ({ set, step, point, place }) => set === 1 && step === 4 && point.includes('seam on C') && place === 1,
      );
      const holdAt = blanks.findIndex(({ set, step }) => set === 1 && step === 5);
      for (const [index, blank] of blanks.entries()) {
        if (index === wrongAt) {
          await answer(terminal, blank, '316');
          expected.push(asRow(blank, '316'));
          await terminal.waitFor(/316 mm is 2\.5 mm over 313\.5/);
          expect(terminal.bells()).toBe(1);
        }
        if (index === holdAt) terminal = await holdLeaveAndResume(terminal, blank, room.folder, columns, rows);
        await answer(terminal, blank);
        expected.push(asRow(blank));
      }
      await terminal.waitFor(/good sets/i);
      await terminal.press('2', '\r');
      await terminal.waitFor(/finished/i);
      await terminal.press('\x03');
      expect((await terminal.exited).code).toBe(0);

      const rowsOf = who(room.folder, 'B-1047');
      const checked = rowsOf.filter(({ kind }) => kind === 'checked');
      expect(checked).toMatchObject(expected);
      expect(rowsOf.filter(({ meaning }) => meaning?.endsWith('with PIN')).map(({ kind }) => kind)).toContain(
        'settled',
      );
      expect(checked.filter(({ verdict }) => verdict === 'above')).toHaveLength(1);
      const events = rowsOf.map(({ kind }) => kind).filter((kind) => kind !== 'checked' && kind !== 'caution-read');
      expect(events).toEqual(['ticketed', 'opened', 'held', 'paused', 'resumed', 'settled', 'finished']);
    } finally {
      room.remove();
    }
  },
);

async function holdLeaveAndResume(
  terminal: RealTerminal,
  blank: Blank,
  folder: string,
  columns: number,
  rows: number,
): Promise<RealTerminal> {
  await terminal.waitFor((screen) => isWanted(screen, blank));
  await terminal.press('h');
  await terminal.waitFor('What is wrong?');
  await terminal.press(...'lamp mark missing', '\r');
  await terminal.waitFor(/on hold/i);
  await terminal.press('\x03');
  expect((await terminal.exited).code).toBe(1);

  const again = start(folder, columns, rows);
  await takeUp(again);
  await again.waitFor('lamp mark missing');
  await again.press('s');
  await again.waitFor('Who settles it?');
  await again.press(...'Vera', '\r');
  await again.waitFor('How?');
  await again.press('1', '\r');
  await again.waitFor('Back to which step?');
  await again.press('\r');
  await again.waitFor('Why so?');
  await again.press(...'mark drawn', '\r');
  await signs(again);
  return again;
}
