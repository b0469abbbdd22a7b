import type { Problem } from '../base/collect-findings.ts';
import type { Source } from '../base/source.ts';

/** What every part of the reader is handed: the text, the values of the front matter, and a place to put findings. */
export interface Reading {
  readonly source: Source;
  readonly values: ReadonlyMap<string, string>;
  readonly note: (problem: Problem) => void;
}
