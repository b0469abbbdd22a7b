import { spawnSync } from 'node:child_process';
import { onTestFinished, type TestContext } from 'vitest';
import { tempFolder } from '../storage/temp-folder.ts';

/** A small file system of its own in memory, gone after the test. Where none may be mounted the test is skipped aloud. */
export function mounted(context: TestContext, options: string): string {
  const folder = tempFolder();
  const mount = spawnSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folder], { encoding: 'utf8' });
  if (mount.status !== 0) {
    const why = `no file system can be mounted here: ${mount.error?.message ?? mount.stderr.trim()}`;
    console.warn(`SKIPPED ${context.task.name}: ${why}`);
    context.skip(why);
  }
  onTestFinished(() => void spawnSync('umount', ['-l', folder]));
  return folder;
}

/** Makes everything in a mounted folder readable only. */
export const makeReadOnly = (folder: string): void => remount(folder, 'ro');

export const makeWritable = (folder: string): void => remount(folder, 'rw');

/** Works only while nobody has a file of it open for writing. */
function remount(folder: string, how: 'ro' | 'rw'): void {
  const { status, stderr } = spawnSync('mount', ['-o', `remount,${how}`, folder], { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
}
