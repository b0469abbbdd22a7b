import type { Severity } from '../../base/finding.ts';
import readerRules from './reader-rules.json' with { type: 'json' };
import type { Rule } from './rule.ts';
import { RULES } from './rules.ts';

/** A rule as it is explained: one that is applied to what was read, or one of the reading itself. */
export interface Explained {
  readonly name: string;
  readonly from: readonly string[];
  readonly severity: Severity;
  readonly why: string;
  readonly source: string;
  /** What to write instead; where there are examples they show it. */
  readonly mend: string;
  readonly bad: string;
  readonly good: string;
  /** Why no text can show it, in a sentence; empty where there are examples. */
  readonly elsewhere: string;
  /** The drawings that the examples show, where they show one. */
  readonly drawing: NonNullable<Rule['drawing']> | null;
}

/** Every name that a finding can carry. */
export const EXPLAINED: readonly Explained[] = [
  ...RULES.map((rule) => ({ ...rule, mend: '', elsewhere: '', drawing: rule.drawing ?? null })),
  ...readerRules.map(({ severity, ...rule }) => ({
    ...rule,
    severity: severity === 'warning' ? ('warning' as const) : ('error' as const),
    source: 'how a procedure is read: procedures/README.md',
    drawing: null,
  })),
];

export const RULE_NAMES: readonly string[] = EXPLAINED.map(({ name }) => name);

/** A rule by its name. */
export const explainedRule = (name: string): Explained | undefined => BY_NAME.get(name);

const BY_NAME: ReadonlyMap<string, Explained> = new Map(EXPLAINED.map((rule) => [rule.name, rule]));
