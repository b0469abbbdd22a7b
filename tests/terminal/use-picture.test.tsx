import headless from '@xterm/headless';
import { Box, Text } from 'ink';
import { useSyncExternalStore } from 'react';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { mount } from '../../src/terminal/mount.tsx';
import type { Size, Terminal } from '../../src/terminal/open-terminal.ts';
import type { PlacedPicture } from '../../src/terminal/placed-picture.ts';
import { usePicture } from '../../src/terminal/use-picture.ts';
import { useSize } from '../../src/terminal/use-size.ts';

/** What the program is to show: words in its rows, and perhaps a picture. */
interface Show {
  readonly words: readonly string[];
  readonly picture: Omit<PlacedPicture, 'beside'> | null;
}

/**
 * Sixels are pixels in cells: whatever is written there takes them away. For an emulator without pixels, letters do the same.
 * They are drawn from where the cursor stands.
 */
const cells = (sign: string, columns: number, rows: number): PlacedPicture['picture'] => ({
  way: 'sixel',
  bytes: Array.from({ length: rows }, () => `${sign.repeat(columns)}\x1b[${columns}D\x1b[B`).join(''),
});

const kitty = (id: number): PlacedPicture['picture'] => ({ way: 'kitty', id, bytes: `\x1b_Ga=T,i=${id};AAAA\x1b\\` });

interface Store {
  show: Show;
  readonly subscribe: (fn: () => void) => () => void;
}

function Shown({ store }: { readonly store: Store }) {
  const { words, picture } = useSyncExternalStore(store.subscribe, () => store.show);
  const { columns, rows } = useSize();
  usePicture(picture && { ...picture, beside: words.slice(picture.row, picture.row + picture.rows).join('\n') });
  const lines = Array.from({ length: rows }, (_, row) => (words[row] ?? '').slice(0, columns));
  return (
    <Box flexDirection="column" width={columns} height={rows} overflow="hidden">
      {lines.map((line, row) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is a place
        <Text key={row} wrap="truncate">
          {line === '' ? ' ' : line}
        </Text>
      ))}
    </Box>
  );
}

const listen =
  <Fn,>(all: Set<Fn>) =>
  (fn: Fn) => {
    all.add(fn);
    return () => void all.delete(fn);
  };

const stops: (() => void)[] = [];
afterEach(() => {
  for (const stop of stops.splice(0)) stop();
});

function play(first: Show) {
  let size: Size = { columns: 40, rows: 10 };
  const screen = new headless.Terminal({ cols: 40, rows: 10, allowProposedApi: true, convertEol: true });
  let sent = '';
  screen.write('\x1b[?1049h');
  const resized = new Set<(size: Size) => void>();
  const closing = new Set<() => void>();
  const write = (text: string): boolean => {
    sent += text;
    screen.write(text);
    return true;
  };
  const terminal = {
    stdout: { write } as unknown as NodeJS.WriteStream,
    size: () => size,
    onResize: listen(resized),
    onClose: listen(closing),
  } as unknown as Terminal;

  const told = new Set<() => void>();
  const store = { show: first, subscribe: listen(told) };
  const mounted = mount(<Shown store={store} />, terminal);
  stops.push(() => mounted.unmount());

  const rowsNow = (): readonly string[] =>
    Array.from({ length: screen.rows }, (_, row) => screen.buffer.active.getLine(row)?.translateToString(true) ?? '');
  /** What a person should see: the words, and over them the picture. */
  const expected = (): readonly string[] => {
    const { words, picture } = store.show;
    return Array.from({ length: size.rows }, (_, row) => {
      const line = (words[row] ?? '').slice(0, size.columns);
      if (!picture || picture.picture.way === 'kitty' || row < picture.row || row >= picture.row + picture.rows)
        return line;
      const sign = picture.picture.bytes[0] ?? '';
      return `${line.padEnd(picture.column).slice(0, picture.column)}${sign.repeat(picture.columns)}`;
    });
  };
  return {
    tell(next: Show) {
      store.show = next;
      for (const fn of [...told]) fn();
    },
    resize(columns: number, rows: number) {
      size = { columns, rows };
      screen.resize(columns, rows);
      for (const fn of [...resized]) fn(size);
    },
    /** As after the process was stopped and continued: the same size, an empty screen. */
    again() {
      for (const fn of [...resized]) fn(size);
    },
    close() {
      for (const fn of [...closing].reverse()) fn();
    },
    seen: () => vi.waitFor(() => expect(rowsNow()).toEqual(expected()), { timeout: 3000, interval: 5 }),
    sent: () => sent,
    rows: rowsNow,
    /** Pictures of the Kitty protocol that are shown now, by their ids. */
    kitties: () =>
      [...sent.matchAll(/\x1b_Ga=([Td])[^;\x1b]*?i=(\d+)/g)].reduce<readonly string[]>(
        (ids, [, what, id = '']) =>
          what === 'T' ? [...ids.filter((one) => one !== id), id] : ids.filter((one) => one !== id),
        [],
      ),
  };
}

const words = ['head', 'one', 'two', 'three', '', '', '', '', '', 'foot'];
const at = (picture: PlacedPicture['picture'], column = 20, row = 2, columns = 10, rows = 4) => ({
  picture,
  column,
  row,
  columns,
  rows,
});

describe('pixels that lie in cells', () => {
  test('are drawn with the first frame and after a change anywhere beside them', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4)) });
    await program.seen();
    const typed = [...words];
    for (const text of ['t', 'tw', 'two words', 'two', '']) {
      typed[2] = text;
      program.tell({ words: [...typed], picture: at(cells('#', 10, 4)) });
      await program.seen();
    }
  });

  test('are not sent again for a change in another row, or for none', async () => {
    const picture = at(cells('#', 10, 4));
    const program = play({ words, picture });
    await program.seen();
    const before = program.sent().length;
    program.tell({ words: ['another head', ...words.slice(1)], picture: { ...picture } });
    await program.seen();
    program.tell({ words: ['another head', ...words.slice(1)], picture: { ...picture } });
    expect(program.sent().slice(before)).toContain('another head');
    expect(program.sent().slice(before)).not.toContain('#');
  });

  test('are gone when the next screen has none, although its rows stay blank', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4), 20, 5) });
    await program.seen();
    program.tell({ words, picture: null });
    await program.seen();
    program.tell({ words, picture: at(cells('#', 10, 4), 20, 5) });
    await program.seen();
    program.tell({ words: words.map((line) => `${line} and words where the picture was`), picture: null });
    await program.seen();
  });

  test('give way to other pixels, elsewhere or in the same place', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4)) });
    await program.seen();
    const same = cells('%', 10, 4);
    for (const picture of [
      at(same),
      at(same, 20, 3),
      at(same, 21, 3),
      at(cells('%', 10, 4), 5, 4),
      at(cells('@', 3, 2), 6, 5, 3, 2),
      at(cells('#', 30, 6), 5, 3, 30, 6),
    ]) {
      const room = words.map((line, row) =>
        row >= picture.row && row < picture.row + picture.rows ? line.slice(0, picture.column) : line,
      );
      program.tell({ words: room, picture });
      await program.seen();
    }
  });

  test('are drawn again after a change of size, and after the screen was lost', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4)) });
    await program.seen();
    program.resize(60, 12);
    await program.seen();
    program.resize(35, 9);
    await program.seen();
    program.again();
    await program.seen();
    program.tell({ words, picture: null });
    program.resize(50, 10);
    await program.seen();
  });

  test('are not drawn where they would make the terminal scroll', async () => {
    const program = play({ words, picture: null });
    await program.seen();
    for (const picture of [at(cells('#', 10, 5), 20, 5, 10, 5), at(cells('#', 10, 4), 35, 2)]) {
      const head = `with ${picture.column}`;
      program.tell({ words: [head, ...words.slice(1)], picture });
      await vi.waitFor(() => expect(program.rows()[0]).toBe(head));
    }
    program.tell({ words, picture: null });
    await program.seen();
    expect(program.sent()).not.toContain('#');
  });

  test('follow many changes in a row', async () => {
    const program = play({ words, picture: null });
    for (let times = 0; times < 40; times++) {
      const picture = times % 3 === 0 ? null : at(cells('#%@'[times % 3] ?? '#', 10, 4), 20, 1 + (times % 4));
      program.tell({ words: words.map((line, row) => (row === times % 9 ? `${line} ${times}` : line)), picture });
      if (times % 7 === 0) await new Promise((resolve) => setImmediate(resolve));
    }
    await program.seen();
  });

  test('never leave the terminal between marks: all of it is inside a synchronized update', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4)) });
    await program.seen();
    program.tell({ words, picture: null });
    await program.seen();
    program.tell({ words, picture: at(cells('%', 10, 4)) });
    await program.seen();
    program.tell({ words: ['x'], picture: at(cells('%', 10, 4)) });
    await program.seen();
    const outside = program.sent().replace(/\x1b\[\?2026h[\s\S]*?\x1b\[\?2026l/g, '');
    expect(outside).not.toMatch(/[#%]/);
  });

  test('are taken away when the program ends', async () => {
    const program = play({ words, picture: at(cells('#', 10, 4)) });
    await program.seen();
    program.close();
    await vi.waitFor(() => expect(program.rows().join('')).not.toContain('#'));
  });
});

describe('pictures that the terminal keeps by their id', () => {
  test('are sent once, whatever is written beside them, and deleted when they go', async () => {
    const program = play({ words, picture: at(kitty(1)) });
    await program.seen();
    expect(program.kitties()).toEqual(['1']);
    program.tell({ words: words.map((line) => `${line}!`), picture: at(kitty(1)) });
    await program.seen();
    const picture = at(kitty(2));
    program.tell({ words, picture });
    await program.seen();
    expect(program.kitties()).toEqual(['2']);
    const before = program.sent().length;
    program.tell({ words: words.map((line) => `${line}?`), picture: { ...picture } });
    await program.seen();
    expect(program.sent().slice(before)).not.toContain('\x1b_G');
    program.tell({ words: words.map((line) => `${line}?`), picture: null });
    await vi.waitFor(() => expect(program.kitties()).toEqual([]));
  });

  test('are deleted before the screen is emptied, and when the program ends', async () => {
    const program = play({ words, picture: at(kitty(1)) });
    await program.seen();
    program.resize(50, 12);
    await program.seen();
    await vi.waitFor(() => expect(program.kitties()).toEqual(['1']));
    expect(program.sent()).toMatch(/a=d,d=I,i=1[\s\S]*\x1b\[H\x1b\[2J[\s\S]*a=T,i=1/);
    program.close();
    await vi.waitFor(() => expect(program.kitties()).toEqual([]));
  });
});
