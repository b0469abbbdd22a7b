import { join } from 'node:path';
import { callDemo } from '../commands/demo-room.ts';

/** A practice room in this folder, made by the program's own command. */
export async function newRoom(folder: string): Promise<string> {
  const { code, err } = await callDemo(folder, 'room');
  if (code !== 0) throw new Error(err);
  return join(folder, 'room');
}

export const ledgerOf = (room: string): string => join(room, '.walkfoot', 'ledger.db');
