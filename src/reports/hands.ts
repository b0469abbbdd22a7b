import type { Hand } from '../bundle/room.ts';
import { table } from './table.ts';

/** The hands of a room as a table for people. */
export function handTable(hands: readonly Hand[], width: number): string {
  if (hands.length === 0) return 'No hands yet: add one with `walkfoot hand add NAME --role sewer`.';
  const shape = ['id', 'name', 'role', 'badge', ''].map((name) => ({ name, align: 'left' }) as const);
  const rows = hands.map(({ id, name, role, badge, retired }) => [
    id,
    name,
    role,
    badge ?? '',
    retired ? 'retired' : '',
  ]);
  return table(shape, rows, width).join('\n');
}
