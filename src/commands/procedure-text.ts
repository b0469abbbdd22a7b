import { readFile, stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { ok, type Result, refuse } from '../base/result.ts';
import { oneLine } from '../base/text.ts';

/** Reads the text of a procedure file. Refused in a sentence when it is missing, no file, too large or not UTF-8. */
export async function procedureText(file: string, cwd: string): Promise<Result<string>> {
  const path = resolve(cwd, file);
  const name = oneLine(file);
  try {
    const facts = await stat(path);
    if (!facts.isFile())
      return refuse('file-unreadable', `${name} is not a file; name a procedure such as procedures/LIN-2207.md.`);
    if (facts.size > LARGEST)
      return refuse('file-too-large', `${name} is larger than 2 MB, which is no procedure; name another file.`);
    const bytes = await readFile(path);
    return ok(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch (error) {
    return refuse('file-unreadable', whyNot(name, error));
  }
}

const LARGEST = 2_000_000;

function whyNot(name: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'ENOENT' || code === 'ENOTDIR') return `There is no file ${name}; check the name and the folder.`;
  if (code === 'EACCES' || code === 'EPERM') return `${name} may not be read by you; ask the owner of the file.`;
  if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA')
    return `${name} is not UTF-8 text; save it as UTF-8 in your editor.`;
  return `${basename(name)} could not be read (${String(code ?? 'unknown')}); try again or copy it.`;
}
