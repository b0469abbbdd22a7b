import { checkpointText } from './checkpoint.ts';
import type { LedgerTree } from './ledger-store.ts';
import { type SigningKey, signNote } from './signed-note.ts';
import { rootOf } from './tree.ts';

/** The checkpoint of this tree, signed in the key's name: a C2SP tlog-checkpoint. The same tree and key give the same text. */
export const sealedNote = ({ size, nodeAt }: LedgerTree, key: SigningKey): string =>
  signNote(checkpointText({ origin: key.name, size, root: rootOf(nodeAt, size) }), key);
