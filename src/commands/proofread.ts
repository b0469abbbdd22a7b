import { join, resolve } from 'node:path';
import type { Finding } from '../procedure/finding.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { listProcedures } from '../storage/procedure-files.ts';
import { cannot, type Io, sayJson } from './io.ts';
import { procedureText } from './procedure-text.ts';

export interface ProofreadOptions {
  readonly json?: boolean;
  readonly room?: string;
}

/** Lists the findings of these files, or of every procedure in the room when none is named. Exit 1 with errors, 2 unread. */
export async function proofreadCommand(files: readonly string[], options: ProofreadOptions, io: Io): Promise<number> {
  const asked = files.length > 0 ? files : proceduresOf(options.room ?? '.', io);
  if (asked.length === 0) return cannot(io, 'There are no procedures here: name a file, or a room with --room.');
  const texts = new Map<string, string>();
  const findings: Finding[] = [];
  for (const file of asked) {
    const text = await procedureText(file, io.cwd);
    if (!text.ok) return cannot(io, text.error.message);
    texts.set(file, text.value);
    for (const finding of readProcedure(text.value, file).findings) findings.push(finding);
  }
  if (options.json) sayJson(io, findings);
  else io.out(findingsReport(findings, texts));
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}

/** The drafts of the room, as paths from the folder the command was called in. */
const proceduresOf = (room: string, io: Io): readonly string[] =>
  listProcedures(resolve(io.cwd, room)).map((name) => join(room, name));
