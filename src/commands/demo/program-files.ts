import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { StoreTrouble } from '../../ledger/ledger-store.ts';

/**
 * The folder in which the program's own `procedures/` and `media/` lie: some way above this file, bundled or not. Throws
 * `StoreTrouble` when they were not installed with it.
 */
export function programFiles(): string {
  const start = dirname(fileURLToPath(import.meta.url));
  for (let folder = start; ; folder = dirname(folder)) {
    if (['procedures', 'media'].every((part) => existsSync(join(folder, part)))) return folder;
    if (dirname(folder) === folder)
      throw new StoreTrouble(
        'The practice procedures are not beside the program: install walkfoot again with its folders procedures and media.',
      );
  }
}
