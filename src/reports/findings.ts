import chalk, { type ChalkInstance } from 'chalk';
import { columns } from '../base/columns.ts';
import type { Finding, Severity } from '../base/finding.ts';
import { many } from '../base/many.ts';
import { lineText, sourceOf } from '../base/source.ts';
import { oneLine } from '../base/text.ts';

/**
 * Findings for people: place, rule and sentence; the line with a mark under the place; what to write instead; and a
 * count at the end. `texts` holds the text of each file by the name that the findings use. On a terminal the severity and the
 * place stand out, by weight and not by
 * colour; `pen` is for the stream it is written to. `silenced` counts what the texts silence.
 */
export function findingsReport(
  findings: readonly Finding[],
  texts: ReadonlyMap<string, string>,
  pen: ChalkInstance = chalk,
  silenced = 0,
): string {
  const sources = new Map([...texts].map(([file, text]) => [file, sourceOf(text, file)]));
  const parts = findings.map((finding) => {
    const source = sources.get(finding.file);
    const { file, line, column, severity, rule, message, mend } = finding;
    const head = `${oneLine(file)}:${line}:${column}  ${severity === 'error' ? pen.bold(severity) : severity}  ${pen.bold(rule)}: ${oneLine(message)}`;
    const shown = source ? marked(lineText(source, line), line, column, pen) : [];
    return [head, ...shown, `  ${oneLine(mend)}`].join('\n');
  });
  const quiet =
    silenced === 0
      ? []
      : [`${many(silenced, 'finding')} silenced at the top of the text, each with its reason; --json lists them.`];
  return `${[...parts, [counted(findings, texts.size), ...quiet].join('\n')].join('\n\n')}\n`;
}

const WIDEST = 100;

/** The line, cut around the place when it is long, and a mark below the place. */
function marked(text: string, line: number, column: number, pen: ChalkInstance): readonly string[] {
  const index = column - 1;
  const from = index > WIDEST - 20 ? index - 40 : 0;
  const lead = from > 0 ? '…' : '';
  const before = lead + oneLine(text.slice(from, index).toWellFormed());
  const after = oneLine(text.slice(index, from + WIDEST).toWellFormed());
  const gutter = `  ${line} | `;
  return [
    `${gutter}${before}${after}`,
    `${' '.repeat(gutter.length - 2)}| ${' '.repeat(columns(before))}${pen.bold('^')}`,
  ];
}

function counted(findings: readonly Finding[], files: number): string {
  const where = `in ${many(files, 'file')}`;
  if (findings.length === 0) return `Nothing to mend ${where}.`;
  const of = (severity: Severity): number => findings.filter((each) => each.severity === severity).length;
  const hints = of('hint');
  const errors = `${many(of('error'), 'error')}${hints > 0 ? ',' : ' and'} ${many(of('warning'), 'warning')}`;
  return `${errors}${hints > 0 ? ` and ${many(hints, 'hint')}` : ''} ${where}.`;
}
