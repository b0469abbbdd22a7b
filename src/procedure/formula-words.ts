import { assertNever } from '../base/assert-never.ts';
import type { Formula } from './formula.ts';

/** A formula as it is written on paper, each name said as `say` says it: `|d1 - d2|`, or `|1818 - 1820|`. */
export function formulaWords(formula: Formula, say: (name: string) => string): string {
  switch (formula.do) {
    case 'number':
      return formula.value;
    case 'name':
      return say(formula.name);
    case 'size':
      return `|${formulaWords(formula.of, say)}|`;
    case 'minus':
      return `-${bracketed(formula.of, say, 3)}`;
    case '+':
    case '-':
    case '*':
    case '/': {
      const rank = binding(formula);
      // `a - (b - c)` keeps its brackets: what stands on the right must bind more tightly.
      return `${bracketed(formula.left, say, rank)} ${SIGNS[formula.do]} ${bracketed(formula.right, say, rank + 1)}`;
    }
    default:
      return assertNever(formula);
  }
}

const SIGNS = { '+': '+', '-': '-', '*': '×', '/': '/' } as const;

function bracketed(formula: Formula, say: (name: string) => string, least: number): string {
  const words = formulaWords(formula, say);
  return binding(formula) < least ? `(${words})` : words;
}

function binding(formula: Formula): number {
  if (formula.do === '+' || formula.do === '-') return 1;
  return formula.do === '*' || formula.do === '/' ? 2 : formula.do === 'minus' ? 2 : 4;
}
