import type { Finding, Severity } from './finding.ts';
import { placeOf, type Source } from './source.ts';
import { oneLine } from './text.ts';

/** A finding before its offset became a line and a column. An error, unless `severity` says otherwise. */
export interface Problem {
  readonly rule: string;
  /** Offset in the text of the source. */
  readonly at: number;
  readonly message: string;
  readonly found: string;
  readonly mend: string;
  readonly severity?: Severity;
}

/** Collects findings; `findings` gives them in the order of the file. */
export function collectFindings(source: Source): {
  readonly note: (problem: Problem) => void;
  readonly findings: () => readonly Finding[];
} {
  const all: Finding[] = [];
  return {
    note: ({ rule, at, message, found, mend, severity }: Problem) => {
      all.push({
        file: source.file,
        ...placeOf(source, at),
        severity: severity ?? 'error',
        rule,
        message,
        found: shortened(found),
        mend,
      });
    },
    findings: () => all.toSorted((a, b) => a.line - b.line || a.column - b.column),
  };
}

const LONGEST = 60;

/** Long and hidden text is made fit to be shown: a finding is printed on terminals. */
function shortened(text: string): string {
  const line = oneLine(text.slice(0, LONGEST * 4)).trim();
  return line.length > LONGEST ? `${line.slice(0, LONGEST - 1).toWellFormed()}…` : line;
}
