import { collectFindings } from '../base/collect-findings.ts';
import type { Finding } from '../base/finding.ts';
import type { Procedure } from './procedure.ts';
import { proofOf } from './proof/proof.ts';
import { RULES } from './proof/rules.ts';
import type { DrawingAt } from './proof/shown-drawing.ts';
import { type Silenced, silence } from './proof/silence.ts';
import { languageOf, wordsOf } from './proof/words.ts';
import { readProcedure } from './read-procedure.ts';

export interface Proofread {
  readonly procedure: Procedure;
  /** What the reader did not understand and what the rules object to, in the order of the file. */
  readonly findings: readonly Finding[];
  /** Warnings and hints that the text silences, with its reason. */
  readonly silenced: readonly Silenced[];
}

/**
 * Reads a procedure and applies every rule that its text and its drawings can decide. Never throws. The language is that of the file's
 * name, `X.es.md`. Without `drawingAt` the rules on drawings find nothing.
 */
export function proofread(text: string, file: string, drawingAt: DrawingAt | null = null): Proofread {
  const { procedure, findings, front, source } = readProcedure(text, file);
  const rules = collectFindings(source);
  const proof = proofOf(procedure, source, front.keys, wordsOf(languageOf(file)), drawingAt);
  for (const { name, severity, check } of RULES)
    check(proof, (found) => rules.note({ rule: name, severity, ...found }));
  return { procedure, ...silence([...findings, ...rules.findings()], front, source) };
}
