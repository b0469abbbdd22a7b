import { isOneShort, levelWords } from '../bundle/skill.ts';
import { csv } from './csv.ts';
import { aloneAt, type Operation } from './skill-matrix.ts';

/** A row for each operation and hand; an empty level is one that nobody entered, which counts as 0. */
export function skillCsv(operations: readonly Operation[]): string {
  const rows = operations.flatMap((operation) => {
    const alone = new Set(aloneAt(operation));
    return operation.hands.map((doing) => ({
      skill: operation.skill,
      hand: doing.hand,
      name: doing.name,
      level: doing.isEntered ? doing.level : null,
      words: levelWords[doing.level],
      sews: alone.has(doing) ? 'alone' : 'with somebody beside',
      next: isOneShort(doing.level) ? 'train next' : null,
      last: doing.lastDay,
    }));
  });
  return csv(rows, ['skill', 'hand', 'name', 'level', 'words', 'sews', 'next', 'last']);
}
