import type { Problem } from '../base/collect-findings.ts';
import { lineText, type Source } from '../base/source.ts';

/** Why a text is not read at all: markup piled up so high, or a text so long, that no person wrote it as a procedure. */
export function outsize(source: Source): Problem | undefined {
  if (source.lineStarts.length > MOST_LINES) {
    return {
      rule: 'too-long',
      at: source.lineStarts[MOST_LINES] ?? 0,
      message: `The file has more than ${MOST_LINES} lines and was not read.`,
      found: `${source.lineStarts.length} lines`,
      mend: 'Split it into several procedures.',
    };
  }
  for (const [index, start] of source.lineStarts.entries()) {
    const end = source.lineStarts[index + 1] ?? source.text.length + 1;
    // Too few characters to be too deep or too long.
    if (end - start <= DEEPEST) continue;
    const line = lineText(source, index + 1);
    const indent = /^[\s>*+?:\-\d.)[{]*/.exec(line)?.[0] ?? '';
    const marks = indent.replace(/(?<!\d)\d{1,9}[.)]/g, '-').match(/[>*+?:\-[{]/g)?.length ?? 0;
    const isRule = /^[ \t]*([*-])(?:[ \t]*\1)*[ \t]*$/.test(line);
    if ((marks > DEEPEST && !isRule) || blanks(indent) > WIDEST) {
      return {
        rule: 'too-deep',
        at: start,
        message: 'Lists or quotes are nested too deep here, and the file was not read.',
        found: line,
        mend: 'Write steps as headings and points as one plain list, without lists inside lists.',
      };
    }
    if (line.length > LONGEST_LINE) {
      return {
        rule: 'too-long',
        at: start,
        message: `A line has more than ${LONGEST_LINE} characters, and the file was not read.`,
        found: line,
        mend: 'Break the line, with an empty line between paragraphs.',
      };
    }
  }
  return undefined;
}

const MOST_LINES = 5000;
const LONGEST_LINE = 20_000;
const DEEPEST = 50;
const WIDEST = 200;

const blanks = (indent: string): number => indent.length - indent.trimStart().length;
