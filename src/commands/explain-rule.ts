import { nearest } from '../procedure/nearest.ts';
import { EXPLAINED, RULE_NAMES } from '../procedure/proof/table.ts';
import { elsewhere, explanation, listOfRules } from '../reports/explanation.ts';
import { cannot, type ExitCode, type Io, sayJson } from './io.ts';

/** Explains the rules of proofreading: one by its name, those of a number such as `L17`, or all in a list when `asked` is null. */
export function explainRule(asked: string | null, { json }: { readonly json?: boolean }, io: Io): ExitCode {
  const id = asked?.toUpperCase() ?? '';
  const meant = asked === null ? EXPLAINED : EXPLAINED.filter(({ name, from }) => name === asked || from.includes(id));
  const kept = elsewhere(id);
  if (meant.length === 0 && kept === undefined) {
    const near = nearest(asked ?? '', RULE_NAMES);
    return cannot(
      io,
      `There is no rule ${asked}${near ? `; did you mean ${near}?` : ':'} \`walkfoot proofread --explain\` lists them all.`,
    );
  }
  if (json)
    sayJson(
      io,
      meant.map((rule) => ({ ...rule, bad: rule.bad.replace('¦', '') })),
    );
  else if (asked === null) io.out(listOfRules(EXPLAINED));
  else io.out([...meant.map(explanation), ...(kept === undefined ? [] : [kept])].join('\n'));
  return 0;
}
