import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { who } from '../../src/commands/who.ts';
import { called } from '../commands/demo-room.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { ledgerOf, newRoom } from './practice-room.ts';

test('texts lost from the ledger: what was done is still answered, and that its words are gone is said', async () => {
  const room = await newRoom(tempFolder());
  const db = new DatabaseSync(ledgerOf(room));
  const guard = db.prepare("SELECT sql FROM sqlite_schema WHERE name = 'kept_no_delete'").get()?.sql;
  db.exec(`DROP TRIGGER kept_no_delete; DELETE FROM kept WHERE name LIKE '%as understood'; ${guard}`);
  db.close();
  const answer = await called((io) => who('B-1042', { room }, io), room);
  expect(answer.code).toBe(1);
  expect(answer.err).toMatch(
    /^walkfoot: The text [0-9a-f]{12}… is not in this ledger: bring back the ledger file .*\.\n$/,
  );
  expect(answer.out).toContain('pieces-in-the-bundle');
});
