import type { Finding } from '../procedure/finding.ts';
import { findingsReport } from '../reports/findings.ts';
import { findProcedure, listProcedures } from '../storage/procedure-files.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson } from './io.ts';
import { readDraft } from './read-draft.ts';

interface ProofreadOptions extends RoomOption {
  readonly json?: boolean;
}

/** Lists the findings of these procedures, or of every one in the room when none is named. Exit 1 with errors, 2 unread. */
export async function proofreadCommand(named: readonly string[], options: ProofreadOptions, io: Io): Promise<ExitCode> {
  const folder = folderOf(options, io);
  const asked = named.length > 0 ? named : listProcedures(folder);
  if (asked.length === 0) return cannot(io, 'There are no procedures here: name a file, or a room with --room.');
  const texts = new Map<string, string>();
  const findings: Finding[] = [];
  for (const each of asked) {
    const draft = findProcedure(folder, each);
    if (!draft.ok) return cannot(io, draft.error.message);
    const { name, text } = draft.value;
    texts.set(name, text);
    for (const finding of readDraft(folder, draft.value).findings) findings.push(finding);
  }
  if (options.json) sayJson(io, findings);
  else io.out(findingsReport(findings, texts));
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}
