import { chalkStderr } from 'chalk';
import { outline } from '../procedure/outline.ts';
import { findingsReport } from '../reports/findings.ts';
import { outlineReport } from '../reports/outline.ts';
import { findProcedure } from '../storage/procedure-files.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson } from './io.ts';
import { readDraft } from './read-draft.ts';

interface OutlineOptions extends RoomOption {
  readonly json?: boolean;
}

/** Shows how the program read one file. The outline goes to standard output, findings to standard error. Exit 1 with errors, 2 unread. */
export async function outlineCommand(named: string, options: OutlineOptions, io: Io): Promise<ExitCode> {
  const folder = folderOf(options, io);
  const draft = findProcedure(folder, named);
  if (!draft.ok) return cannot(io, draft.error.message);
  const { name, text } = draft.value;
  const { procedure, findings } = readDraft(folder, draft.value);
  if (options.json) sayJson(io, outline(procedure));
  else io.out(outlineReport(procedure));
  if (findings.length > 0) io.err(findingsReport(findings, new Map([[name, text]]), chalkStderr));
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}
