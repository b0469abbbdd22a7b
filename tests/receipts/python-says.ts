import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * What a verifier in another language, that knows the form only from its description, says of the receipt. `not checked`: as on a
 * machine without the package that checks signatures.
 */
export function pythonSays(
  receipt: string,
  key: string,
  signatures: 'checked if possible' | 'not checked' = 'checked if possible',
): { readonly code: number | null; readonly said: string } {
  const folder = mkdtempSync(join(tmpdir(), 'receipts-'));
  try {
    const file = join(folder, 'a.receipt');
    writeFileSync(file, receipt);
    const start = signatures === 'not checked' ? ['-c', WITHOUT, SCRIPT] : [SCRIPT];
    const run = spawnSync('python3', ['-I', ...start, file, key], { encoding: 'utf8' });
    if (run.error) throw new Error(`this test needs python3 on the machine: ${run.error.message}`);
    return { code: run.status, said: run.stdout + run.stderr };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const SCRIPT = join(import.meta.dirname, 'verify_receipt.py');
const WITHOUT =
  "import runpy, sys; sys.modules['cryptography'] = None; sys.argv.pop(0); runpy.run_path(sys.argv[0], run_name='__main__')";
