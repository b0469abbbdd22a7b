import type { Severity } from '../../base/finding.ts';
import type { Proof } from './proof.ts';

/** What a rule finds: the offset in the text, what was read there, and what to write instead. */
interface Found {
  readonly at: number;
  readonly found: string;
  readonly message: string;
  readonly mend: string;
}

/**
 * One rule of proofreading. `bad` and `good` are examples: steps of a procedure, or a whole file when they begin with `---`. In `bad` a
 * broken bar (¦) stands just before the place meant.
 */
export interface Rule {
  /** Plain words in kebab case. Findings carry it, and a text silences a rule by it. */
  readonly name: string;
  /** Numbers of the list of rules, `L01` to `L44`; empty for a rule that is not in it. */
  readonly from: readonly string[];
  readonly severity: Severity;
  /** In a sentence or two for whoever asks why. */
  readonly why: string;
  /** Where the rule comes from, and whether that text was read. */
  readonly source: string;
  readonly bad: string;
  readonly good: string;
  /** What stands in the drawing `../media/panel.svg` of the two examples, 200 by 100 mm; the bad one's first, where they differ. */
  readonly drawing?: { readonly bad: string; readonly good: string };
  readonly check: (proof: Proof, say: (found: Found) => void) => void;
}

export const COMMON_PRACTICE = 'common practice, no source';

/** The same drawing for both examples. */
export const both = (drawing: string): { readonly bad: string; readonly good: string } => ({
  bad: drawing,
  good: drawing,
});
