import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { digestOf } from '../ledger/leaf.ts';
import type { KeptText, LedgerStore } from '../ledger/ledger-store.ts';
import type { Procedure } from '../procedure/procedure.ts';

/**
 * How the program understood a procedure's text when it was released. It is kept beside the text and named in the same entry:
 * a bundle is played, and answered for, as it was read on that day, whatever a later reader would make of the words.
 */
export function understoodText(procedure: Procedure, name: string): KeptText {
  const bytes = new TextEncoder().encode(JSON.stringify({ v: 1, procedure }));
  return { digest: digestOf(bytes), name: `${name} as understood`, bytes };
}

/** The procedure kept under the digest of its understanding. */
export async function keptProcedure(store: LedgerStore, understood: Digest): Promise<Result<Procedure>> {
  const kept = await store.kept(understood);
  const procedure = kept && procedureIn(new TextDecoder().decode(kept.bytes));
  return procedure
    ? ok(procedure)
    : refuse(
        'text-missing',
        `The text ${understood.slice(0, 12)}… is not in this ledger: bring back the ledger file it was released in.`,
      );
}

/** The procedure in such a text; undefined where there is none. */
export function procedureIn(text: string): Procedure | undefined {
  try {
    const read: unknown = JSON.parse(text);
    return isUnderstood(read) ? read.procedure : undefined;
  } catch {
    return undefined;
  }
}

/** The digest vouches for the rest. */
const isUnderstood = (read: unknown): read is { readonly procedure: Procedure } =>
  typeof read === 'object' && read !== null && 'v' in read && read.v === 1 && 'procedure' in read;
