import { mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** An empty folder that is gone when the test is over. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(realpathSync(tmpdir()), 'walkfoot-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
