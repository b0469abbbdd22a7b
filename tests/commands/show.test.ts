import { PassThrough, Writable } from 'node:stream';
import { expect, test } from 'vitest';
import { modeOf } from '../../src/app/mode.ts';
import type { AppStore } from '../../src/app/store.ts';
import { allChecks } from '../../src/bundle/bundle.ts';
import type { Io } from '../../src/commands/io.ts';
import { showProgram } from '../../src/commands/show.tsx';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { smallProcedure, type Workroom, workroom } from '../app/workroom.ts';

/** A terminal of 80 by 24 whose keyboard is written to, and all that was sent to its screen. */
function desk({ clock }: Workroom) {
  const stdin = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => stdin });
  let sent = '';
  const screen = new Writable({
    write(chunk, _encoding, done) {
      sent += String(chunk);
      done();
    },
  });
  const stdout = Object.assign(screen, { isTTY: true, columns: 80, rows: 24 });
  const io = {
    stdin,
    stdout,
    env: {},
    cwd: '.',
    clock: clock.now,
    out: () => {},
    err: () => {},
    exit: () => {
      throw new Error('only a signal or a crash ends the process');
    },
  } as unknown as Io;
  const resize = (columns: number, rows: number): void => {
    Object.assign(stdout, { columns, rows });
    stdout.emit('resize');
  };
  return { io, type: (bytes: string) => void stdin.write(bytes), sent: () => sent, resize };
}

/** Waits until the program is so. */
const until = (program: AppStore, so: () => boolean): Promise<void> =>
  new Promise((resolve) => {
    const look = (): void => {
      if (so()) resolve();
    };
    program.subscribe(look);
    look();
  });

const values = (program: AppStore): readonly string[] => {
  const { play } = program.app();
  return play ? allChecks(play.bundle).map(({ value }) => value) : [];
};

test('keys that arrive in one burst go to the points they were meant for, none lost', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  const { io, type, sent } = desk(room);
  // A disk is slower than a scanner.
  const { append } = room.store;
  room.store.append = async (...entries) => {
    for (let turns = 0; turns < 5; turns++) await new Promise((resolve) => setImmediate(resolve));
    return append(...entries);
  };
  const ended = showProgram({ store: program, io, onBell: () => {} });
  type('ines\rb-1\r4\r');
  await until(program, () => modeOf(program.app()) === 'choice');
  type('n');
  await until(program, () => modeOf(program.app()) === 'form words');
  type('faint on the edge\r1\r');
  await until(program, () => modeOf(program.app()) === 'caution');
  expect(values(program)).toEqual(['4', 'match']);
  const [note] = await room.store.read({ kinds: ['noted'] });
  expect(note?.entry.body).toMatchObject({ text: 'faint on the edge' });
  type('\x03');
  expect(await ended).toBe(0);
  expect(sent()).toMatch(/\x1b\[\?1049h[\s\S]*\x1b\[\?1049l/);
  expect(room.ledger.bundles().map(({ work }) => work)).toEqual(['not opened']);
  await room.ledger.catchUp();
  expect(room.ledger.bundles().map(({ work }) => work)).toEqual(['paused']);
});

test('the program is handed the bell of the terminal', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  const { io, type, sent } = desk(room);
  let ring = (): void => {};
  const ended = showProgram({ store: program, io, onBell: (sound) => (ring = sound) });
  ring();
  expect(sent()).toContain('\x07');
  type('\x03');
  expect(await ended).toBe(0);
});

test('when the machine breaks, the terminal comes back and the trouble is thrown', async () => {
  const room = await workroom(smallProcedure);
  room.store.append = () => Promise.reject(new StoreTrouble('The disk is full.'));
  const program = await room.program();
  const { io, type, sent } = desk(room);
  // A disk is slower than a scanner.
  const { append } = room.store;
  room.store.append = async (...entries) => {
    for (let turns = 0; turns < 5; turns++) await new Promise((resolve) => setImmediate(resolve));
    return append(...entries);
  };
  const ended = showProgram({ store: program, io, onBell: () => {} });
  type('ines\r');
  await expect(ended).rejects.toThrow('The disk is full.');
  expect(sent()).toContain('\x1b[?1049l');
});

test('a caution longer than the screen is read when its end has been in sight, and nothing is answered unseen', async () => {
  const long = smallProcedure.replace(
    'Take your foot off the treadle.',
    `${'Keep your hands in sight of each other. '.repeat(40)}Take your foot off the treadle.`,
  );
  const room = await workroom(long);
  const program = await room.program();
  const { io, type, sent, resize } = desk(room);
  const ended = showProgram({ store: program, io, onBell: () => {} });
  type('ines\rb-1\r4\r');
  await until(program, () => modeOf(program.app()) === 'choice');
  type('1\r');
  await until(program, () => modeOf(program.app()) === 'caution');
  resize(30, 8);
  for (let i = 0; i < 3; i++) await pressed('\r');
  expect(modeOf(program.app())).toBe('caution');
  resize(80, 24);
  await pressed('\r');
  expect(modeOf(program.app())).toBe('caution');
  for (let i = 0; i < 12; i++) await pressed('\r');
  expect(modeOf(program.app())).not.toBe('caution');
  expect(sent()).toContain('Take your foot off');
  type('\x03');
  expect(await ended).toBe(0);

  /** An enter as a person presses it: far enough from the one before. */
  async function pressed(key: string): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, 1300));
    type(key);
    await new Promise((resolve) => setTimeout(resolve, 150));
    await program.settled();
  }
}, 60_000);
