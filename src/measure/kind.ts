import type { UnitKind } from './unit.ts';

/** A kind with its article, for sentences. */
export function kindWords(kind: UnitKind): string {
  return WORDS[kind];
}

/** Kinds that lie below nothing only by a slip of the hand. A gauge may show a vacuum, and cloth may shrink. */
export function isNeverNegative(kind: UnitKind): boolean {
  return NEVER_NEGATIVE.has(kind);
}

const WORDS: Readonly<Record<UnitKind, string>> = {
  length: 'a length',
  mass: 'a mass',
  force: 'a force',
  pressure: 'a pressure',
  temperature: 'a temperature',
  ratio: 'a percentage',
  count: 'a count',
  time: 'a time',
  'stitch density': 'a stitch density',
};

const NEVER_NEGATIVE: ReadonlySet<UnitKind> = new Set<UnitKind>(['length', 'mass', 'time', 'count', 'stitch density']);
