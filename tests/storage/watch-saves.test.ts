import { appendFileSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { watchSaves } from '../../src/storage/watch-saves.ts';
import { tempFolder } from './temp-folder.ts';

function watching(paths: readonly string[]) {
  const saved = vi.fn<() => void>();
  const lost = vi.fn<(trouble: Error) => void>();
  return { saved, lost, stop: watchSaves(paths, { saved, lost }) };
}

/** Waits until the call has come, however slow the machine is. */
const times = (call: ReturnType<typeof vi.fn>, count: number) =>
  vi.waitFor(() => expect(call).toHaveBeenCalledTimes(count), { timeout: 10_000, interval: 2 });

/** Long enough that a call which should not come would have come. */
const quiet = () => new Promise((done) => setTimeout(done, 150));

test('a save in place is told of once, though it empties the file first', async () => {
  const folder = tempFolder();
  const file = join(folder, 'a.md');
  writeFileSync(file, 'one');
  const { saved, stop } = watching([file]);
  writeFileSync(file, '');
  appendFileSync(file, 'two');
  await times(saved, 1);
  await quiet();
  expect(saved).toHaveBeenCalledTimes(1);
  stop();
});

test('a save by another file put in its place is told of, and so is the next', async () => {
  const folder = tempFolder();
  const file = join(folder, 'a.md');
  writeFileSync(file, 'one');
  const { saved, stop } = watching([file]);
  for (const [index, text] of ['two', 'three', 'four'].entries()) {
    writeFileSync(join(folder, '.a.md.new'), text);
    renameSync(join(folder, '.a.md.new'), file);
    await times(saved, index + 1);
  }
  stop();
});

test('other files of the folder are nobody’s business, and neither is anything after the stop', async () => {
  const folder = tempFolder();
  const file = join(folder, 'a.md');
  writeFileSync(file, 'one');
  const { saved, stop } = watching([file]);
  writeFileSync(join(folder, 'b.md'), 'x');
  writeFileSync(join(folder, '.a.md.swp'), 'x');
  await quiet();
  expect(saved).not.toHaveBeenCalled();
  stop();
  writeFileSync(file, 'two');
  await quiet();
  expect(saved).not.toHaveBeenCalled();
});

test('in a folder every text and picture counts, also a new one and one that goes', async () => {
  const folder = tempFolder();
  const { saved, stop } = watching([folder]);
  writeFileSync(join(folder, 'new.md'), 'x');
  await times(saved, 1);
  rmSync(join(folder, 'new.md'));
  await times(saved, 2);
  writeFileSync(join(folder, 'picture.svg'), 'x');
  await times(saved, 3);
  writeFileSync(join(folder, 'else.txt'), 'x');
  writeFileSync(join(folder, '.new.md'), 'x');
  await quiet();
  expect(saved).toHaveBeenCalledTimes(3);
  stop();
});

test('a file that is written to without end is told of all the same', async () => {
  const folder = tempFolder();
  const file = join(folder, 'a.md');
  const { saved, stop } = watching([file]);
  const writer = setInterval(() => appendFileSync(file, 'x'), 3);
  await vi.waitFor(() => expect(saved.mock.calls.length).toBeGreaterThan(1), { timeout: 10_000, interval: 2 });
  clearInterval(writer);
  stop();
});

test('a folder that goes is told of in a sentence, once', async () => {
  const folder = join(tempFolder(), 'procedures');
  mkdirSync(folder);
  const { lost, stop } = watching([folder]);
  rmSync(folder, { recursive: true });
  await times(lost, 1);
  expect(lost.mock.calls[0]?.[0].message).toBe(`${folder} can no longer be watched: put it back.`);
  stop();
});

test.each([
  ['at once', 0],
  ['after a while', 400],
])('a folder in whose place another is put %s is watched again', async (_, ms) => {
  const folder = join(tempFolder(), 'procedures');
  mkdirSync(folder);
  const { saved, lost, stop } = watching([folder]);
  renameSync(folder, `${folder}-old`);
  if (ms > 0) {
    await times(lost, 1);
    await new Promise((done) => setTimeout(done, ms));
  }
  mkdirSync(folder);
  await times(saved, 1);
  writeFileSync(join(folder, 'new.md'), 'x');
  await times(saved, 2);
  writeFileSync(join(`${folder}-old`, 'old.md'), 'x');
  await quiet();
  expect(saved).toHaveBeenCalledTimes(2);
  expect(lost.mock.calls.length).toBeLessThanOrEqual(1);
  stop();
});

test('a folder that is not there is refused with a way out', () => {
  const folder = join(tempFolder(), 'gone');
  expect(() => watching([join(folder, 'a.md')])).toThrow(`${folder} is not there: check the name of the folder`);
});

test('a save is told of within 100 ms', async () => {
  const folder = tempFolder();
  const file = join(folder, 'a.md');
  writeFileSync(file, 'one');
  const { saved, stop } = watching([file]);
  const took: number[] = [];
  for (let round = 1; round <= 10; round += 1) {
    const start = performance.now();
    writeFileSync(join(folder, 'new'), String(round));
    renameSync(join(folder, 'new'), file);
    await times(saved, round);
    took.push(performance.now() - start);
  }
  // On a machine that is busy with other things a round may be late; most are not.
  expect(took.toSorted((a, b) => a - b)[4]).toBeLessThan(100);
  stop();
});
