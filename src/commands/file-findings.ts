import type { Finding } from '../base/finding.ts';
import type { Refusal } from '../base/result.ts';
import { type ProcedureFile, twinsIn } from '../storage/procedure-files.ts';

/** A file of the room that cannot be read, as a finding among those of the others. */
export const unreadFile = (file: string, { message }: Refusal): Finding => ({
  file,
  line: 1,
  column: 1,
  severity: 'error',
  rule: 'file-unreadable',
  message,
  found: '',
  mend: 'Mend it, or move it out of procedures/: until then nobody reads what it says.',
});

/** One finding in each of these texts for each other one of the room that has the same id. */
export function sameIds(files: readonly ProcedureFile[], room: readonly ProcedureFile[]): readonly Finding[] {
  const twinsOf = twinsIn(room);
  return files.flatMap((file) =>
    twinsOf(file).map((twin) => {
      const lines = file.text.split(/\r?\n/);
      const at = lines.findIndex((line) => line.startsWith('procedure:'));
      return {
        file: file.name,
        line: at + 1,
        column: 1,
        severity: 'error',
        rule: 'procedure-twice',
        message: `${twin.name} has the same id, so that nobody knows which of the two is meant.`,
        found: lines[at] ?? '',
        mend: 'Give one of the two another id, or move it out of procedures/.',
      } as const;
    }),
  );
}
