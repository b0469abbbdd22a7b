import { signCheckpoint } from './checkpoint.ts';
import type { LedgerTree } from './ledger-store.ts';
import type { SigningKey } from './note-key.ts';
import { frontierOf, rootOf } from './tree.ts';

/** The checkpoint of this tree, signed in the key's name. The same tree and key give the same text. */
export const sealedNote = ({ size, nodeAt }: LedgerTree, key: SigningKey): string =>
  signCheckpoint({ size, root: rootOf(frontierOf(size, nodeAt)) }, key);
