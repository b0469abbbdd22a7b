import headless from '@xterm/headless';
import { expect, test, vi } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { Screen } from '../../src/screens/screen.tsx';
import type { TruePictures } from '../../src/screens/true-pictures.ts';
import { mount } from '../../src/terminal/mount.tsx';
import type { Terminal } from '../../src/terminal/open-terminal.ts';
import type { SentPicture } from '../../src/terminal/placed-picture.ts';
import type { Room } from '../../src/widgets/page.ts';
import { withoutColour } from '../../src/widgets/theme.ts';
import { workroom } from '../app/workroom.ts';
import { readSample } from '../picture/read-sample.ts';
import { lining, press } from './lining.ts';

/** Letters stand for the pixels of a picture, one row lower than its room: they lie in cells, and what is written there takes them away. */
const pixels = ({ columns, rows }: Room): SentPicture => ({
  way: 'sixel',
  bytes: Array.from({ length: rows - 1 }, () => `${'#'.repeat(columns)}\x1b[${columns}D\x1b[B`).join(''),
});

test('a picture of pixels stands beside the words, alone under its key, and nowhere else', async () => {
  const room = await workroom(lining);
  const program = await room.program();
  const screen = new headless.Terminal({ cols: 110, rows: 24, allowProposedApi: true, convertEol: true });
  screen.write('\x1b[?1049h');
  const terminal = {
    stdout: { write: (text: string) => screen.write(text) },
    size: () => ({ columns: 110, rows: 24 }),
    onResize: () => () => {},
    onClose: () => () => {},
  } as unknown as Terminal;
  let version = 0;
  let tell = (): void => {};
  let can = false;
  const kept = new Map<string, SentPicture>();
  const pictures: TruePictures = {
    find: (_, at) => {
      const key = `${at.columns} ${at.rows}`;
      if (can && !kept.has(key)) kept.set(key, pixels(at));
      return kept.get(key) ?? null;
    },
    subscribe: (fn) => {
      tell = fn;
      return () => {};
    },
    version: () => version,
  };
  const mounted = mount(<Screen store={program} theme={withoutColour} pictures={pictures} />, terminal);
  const rows = (): readonly string[] =>
    Array.from({ length: 24 }, (_, row) => screen.buffer.active.getLine(row)?.translateToString(true) ?? '');
  /** Columns and rows of the picture: where each row of it begins, and how wide it is. */
  const seen = (): readonly string[] =>
    rows().flatMap((row, at) => {
      const found = /#+/.exec(row);
      return found ? [`${at}: ${found.index}+${found[0].length}`] : [];
    });

  await press(program, '"ines" enter "b-1" enter "22" enter "R-318" enter 1 enter "1819" enter "1817" enter enter');
  await press(program, 'enter');
  room.clock.pass(720);
  await press(program, 'enter enter enter');
  await vi.waitFor(() => expect(rows().join('\n')).toContain('Raw edges to the pencil line'));
  expect(seen()).toEqual([]);
  const { play } = program.app();
  if (!play) throw new Error('no bundle');
  const drawing = {
    is: 'drawing',
    digest: 'd'.repeat(64) as Digest,
    drawing: readSample('lining'),
    scale: 'to scale',
  } as const;
  program.tell({
    news: 'pictures',
    pictures: { of: play.procedure, found: new Map([['../media/lining.svg', drawing]]) },
  });
  await vi.waitFor(() => expect(rows().join('\n')).toMatch(/[⠛⠿⠶⣤⣶⣿]{8}/));
  // The terminal has said what it can: the characters give way to pixels, which end before the last column.
  can = true;
  version++;
  tell();
  await vi.waitFor(() => expect(seen()).toHaveLength(14));
  expect(new Set(seen().map((row) => row.split(': ')[1]))).toEqual(new Set(['61+48']));
  expect(rows().join('\n')).not.toMatch(/[⠁-⣿]/);
  await press(program, '1 2');
  await vi.waitFor(() => expect(seen()).toHaveLength(14));
  await press(program, 'esc p');
  await vi.waitFor(() => expect(new Set(seen().map((row) => row.split(': ')[1]))).toEqual(new Set(['1+108'])));
  await press(program, 'esc b');
  await vi.waitFor(() => expect(rows().join('\n')).toContain('Looking back at B-1'));
  expect(seen()).toEqual([]);
  await press(program, 'esc');
  await vi.waitFor(() => expect(seen()).toHaveLength(14));
  mounted.unmount();
});
