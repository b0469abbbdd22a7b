import { outline } from '../procedure/outline.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { outlineReport } from '../reports/outline.ts';
import { cannot, type Io, sayJson } from './io.ts';
import { procedureText } from './procedure-text.ts';

/** Shows how the program read one file. The outline goes to standard output, findings to standard error. Exit 1 with errors, 2 unread. */
export async function outlineCommand(file: string, options: { readonly json?: boolean }, io: Io): Promise<number> {
  const text = await procedureText(file, io.cwd);
  if (!text.ok) return cannot(io, text.error.message);
  const { procedure, findings } = readProcedure(text.value, file);
  if (options.json) sayJson(io, outline(procedure));
  else io.out(outlineReport(procedure));
  if (findings.length > 0) io.err(findingsReport(findings, new Map([[file, text.value]])));
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}
