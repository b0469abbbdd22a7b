/** An error stops a release; a warning does not; a hint is taken or left. */
export type Severity = 'error' | 'warning' | 'hint';

/** Something the reader did not understand, or that would mislead a reader. `found` is what was read, `mend` what to write instead. */
export interface Finding {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly severity: Severity;
  /** Short stable name in kebab case. */
  readonly rule: string;
  readonly message: string;
  readonly found: string;
  readonly mend: string;
}
