import type { EntryFilter } from '../ledger/ledger-store.ts';

/**
 * The query for a filter, and its values in order. The text depends only on which conditions are set, so it is prepared
 * once. The narrowest condition leads; a `+` keeps SQLite, which knows nothing of how many entries a hand or a kind has,
 * from choosing the index of another one.
 */
export function selectEntries({ ticket, hand, kinds, after }: EntryFilter): {
  readonly sql: string;
  readonly values: readonly (string | number)[];
} {
  const [lead, ...others] = [
    ...(ticket === undefined ? [] : [{ sql: 'ticket = ?', value: ticket }]),
    ...(hand === undefined ? [] : [{ sql: 'hand = ?', value: hand }]),
    ...(kinds === undefined ? [] : [{ sql: 'kind IN (SELECT value FROM json_each(?))', value: JSON.stringify(kinds) }]),
  ];
  const conditions = [
    ...(lead ? [lead] : []),
    ...others.map(({ sql, value }) => ({ sql: `+${sql}`, value })),
    ...(after === undefined ? [] : [{ sql: 'seq > ?', value: after }]),
  ];
  const where = conditions.length === 0 ? '' : ` WHERE ${conditions.map(({ sql }) => sql).join(' AND ')}`;
  return {
    sql: `SELECT seq, text, leaf FROM entries${where} ORDER BY seq`,
    values: conditions.map(({ value }) => value),
  };
}
