import { collectFindings } from '../../base/collect-findings.ts';
import type { Finding } from '../../base/finding.ts';
import type { Source } from '../../base/source.ts';
import type { FrontMatter } from '../front-matter.ts';
import { nearest } from '../nearest.ts';
import { explainedRule, RULE_NAMES } from './table.ts';

export interface Silenced {
  readonly finding: Finding;
  readonly reason: string;
}

/**
 * Parts what is silenced at the top of the text from what is not. Only warnings and hints are, and only for a reason; what is wrong
 * with a silencing is a finding itself.
 */
export function silence(
  findings: readonly Finding[],
  { silenced }: FrontMatter,
  source: Source,
): { readonly findings: readonly Finding[]; readonly silenced: readonly Silenced[] } {
  if (silenced.length === 0) return { findings: inOrder(findings), silenced: [] };
  const { note, findings: noted } = collectFindings(source);
  const quiet = new Map<string, string>();
  for (const { key, keyAt, text } of silenced) {
    const rule = explainedRule(key);
    if (rule === undefined) {
      const near = nearest(key, RULE_NAMES);
      const mend = near ? `Write ${near}.` : 'walkfoot proofread --explain lists the rules.';
      note({
        rule: 'silenced-unknown',
        at: keyAt,
        message: 'There is no rule of this name to silence.',
        found: key,
        mend,
      });
    } else if (rule.severity === 'error') {
      const message = 'This rule finds errors, and an error is never silenced.';
      note({
        rule: 'silenced-error',
        at: keyAt,
        message,
        found: key,
        mend: 'Take the line out, and mend what the rule finds.',
      });
    } else if (!/\p{L}{2}/u.test(text)) {
      const mend = 'Write behind the colon why the rule does not fit this text.';
      note({
        rule: 'silenced-without-reason',
        at: keyAt,
        message: 'A rule is silenced only for a reason.',
        found: key,
        mend,
      });
    } else if (!findings.some((each) => each.rule === rule.name && each.severity !== 'error')) {
      const message = 'This rule finds nothing here, so there is nothing to silence.';
      note({
        rule: 'silenced-for-nothing',
        at: keyAt,
        message,
        found: key,
        mend: 'Take the line out.',
        severity: 'warning',
      });
    } else quiet.set(rule.name, text);
  }
  const isQuiet = ({ rule, severity }: Finding): boolean => severity !== 'error' && quiet.has(rule);
  return {
    findings: inOrder([...findings.filter((each) => !isQuiet(each)), ...noted()]),
    silenced: findings.filter(isQuiet).map((finding) => ({ finding, reason: quiet.get(finding.rule) ?? '' })),
  };
}

const inOrder = (findings: readonly Finding[]): readonly Finding[] =>
  findings.toSorted((a, b) => a.line - b.line || a.column - b.column);
