import { assertNever } from '../base/assert-never.ts';
import { columns } from '../base/columns.ts';
import type { Severity } from '../base/finding.ts';
import { showHidden } from '../base/text.ts';
import { ELSEWHERE } from '../procedure/proof/elsewhere.ts';
import type { Explained } from '../procedure/proof/table.ts';

/** A rule for people: what it objects to, why, from where, and an example of wrong and right. */
export function explanation(rule: Explained): string {
  const { name, from, severity, why, source, mend, bad, good, elsewhere, drawing } = rule;
  const shown = (which: 'bad' | 'good'): string =>
    drawing === null ? '' : `\n\nwith this in the drawing\n\n${indented(drawing[which])}`;
  const parts = [
    `${name}${from.length > 0 ? ` (${from.join(', ')})` : ''}: ${saySeverity(severity)}`,
    why,
    `Source: ${source}.`,
    ...(mend === '' ? [] : [mend]),
    ...(elsewhere !== ''
      ? [elsewhere]
      : [
          `Found in\n\n${indented(bad.replace('¦', ''))}${shown('bad')}`,
          `and not in\n\n${indented(good)}${shown('good')}`,
        ]),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** All rules, a line each, and below them the rules of the list that a text alone cannot decide. */
export function listOfRules(rules: readonly Explained[]): string {
  const widest = Math.max(...rules.map(({ name }) => columns(name)));
  const rows = rules
    .toSorted((a, b) => (key(a) < key(b) ? -1 : 1))
    .map(({ name, from, severity }) => `${name.padEnd(widest)}  ${severity.padEnd(7)}  ${from.join(', ')}`.trimEnd());
  const others = [...ELSEWHERE].map(([id, where]) => `${id}  ${where}`);
  return `${rows.join('\n')}\n\nNot decided by the text alone:\n\n${others.join('\n')}\n`;
}

/** What is said of a rule of the list that is kept elsewhere. */
export const elsewhere = (id: string): string | undefined => {
  const where = ELSEWHERE.get(id);
  return where === undefined ? undefined : `${id}  ${where}\n`;
};

/** Rules of the list first, in its order. */
const key = ({ from, name }: Explained): string => `${from[0] ?? '~'} ${name}`;

function saySeverity(severity: Severity): string {
  switch (severity) {
    case 'error':
      return 'an error, which stops a release';
    case 'warning':
      return 'a warning, which a text may silence with a reason';
    case 'hint':
      return 'a hint, to be taken or left';
    default:
      return assertNever(severity);
  }
}

const indented = (text: string): string =>
  showHidden(text)
    .trimEnd()
    .replace(/^(?=.)/gm, '    ');
