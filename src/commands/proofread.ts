import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Finding } from '../procedure/finding.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import type { Io } from './io.ts';
import { procedureText } from './procedure-text.ts';

export interface ProofreadOptions {
  readonly json?: boolean;
  readonly room?: string;
}

/** Lists the findings of these files, or of every procedure in the room when none is named. Exit 1 with errors, 2 unread. */
export async function proofreadCommand(files: readonly string[], options: ProofreadOptions, io: Io): Promise<number> {
  const asked = files.length > 0 ? files : await proceduresOf(options.room ?? '.', io);
  if (asked.length === 0) {
    io.err('walkfoot: There are no procedures here; name a file, or a room with --room.\n');
    return 2;
  }
  const texts = new Map<string, string>();
  const findings: Finding[] = [];
  for (const file of asked) {
    const text = await procedureText(file, io.cwd);
    if (!text.ok) {
      io.err(`walkfoot: ${text.error.message}\n`);
      return 2;
    }
    texts.set(file, text.value);
    for (const finding of readProcedure(text.value, file).findings) findings.push(finding);
  }
  io.out(options.json ? `${JSON.stringify(findings, null, 2)}\n` : findingsReport(findings, texts));
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}

async function proceduresOf(room: string, io: Io): Promise<readonly string[]> {
  const folder = join(room, 'procedures');
  try {
    const names = await readdir(resolve(io.cwd, folder));
    return names
      .filter((name) => name.endsWith('.md') && name !== 'README.md')
      .sort()
      .map((name) => join(folder, name));
  } catch {
    return [];
  }
}
