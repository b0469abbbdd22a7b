import type { HandId } from '../base/brand.ts';
import { formatStamp, type Instant } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Bundle } from './bundle.ts';
import type { Body, EntryDraft, EntryKind, Role } from './entries.ts';
import type { FromPaper } from './from-paper.ts';
import { passed } from './passed.ts';
import type { Proof } from './pin.ts';
import type { Hand, Room } from './room.ts';
import type { PinRule } from './signature.ts';

/** All that `decide` may look at. */
export interface Situation {
  readonly room: Room;
  /** The bundle of the ticket in question; undefined when there is no such ticket. */
  readonly bundle: Bundle | undefined;
  /** The text the bundle is bound to, or before its opening the text it would be opened with. */
  readonly procedure: Procedure | undefined;
  readonly now: Instant;
  /** What is done was done on paper. */
  readonly paper?: FromPaper;
  /** Whose PIN is asked, and whose was proven for this command; absent: supervisors, and nobody's. */
  readonly signing?: { readonly rule: PinRule; readonly proof: Proof | null };
}

/** A situation in which a bundle and its text are known. */
export interface BundleSituation extends Situation {
  readonly bundle: Bundle;
  readonly procedure: Procedure;
}

/** The hand who acts, when it is enrolled, not retired and has one of the roles. */
export function actor(room: Room, hand: HandId, allowed: readonly Role[]): Result<Hand> {
  const found = room.hands.get(hand);
  if (!found)
    return refuse('hand-unknown', 'Nobody here is called {hand}: ask a supervisor to add the hand first.', { hand });
  if (found.retired)
    return refuse('hand-retired', '{name} is retired and can’t act any more: sign on as somebody else.', {
      name: found.name,
    });
  if (!allowed.includes(found.role))
    return allowed.includes('sewer')
      ? refuse('role', '{name} only reads here: this takes a sewer or a supervisor.', { name: found.name })
      : refuse('role', '{name} is no supervisor: this takes a supervisor.', { name: found.name });
  return ok(found);
}

/** Who may work on bundles. */
export const workers: readonly Role[] = ['sewer', 'supervisor'];

/** What happened, without what `record` knows of its place in the bundle. */
export type Told = {
  [K in EntryKind]: { readonly kind: K; readonly body: Omit<Body<K>, 'nth' | 'clockBack' | 'paper'> };
}[EntryKind];

/** What happened as entries of this moment: counted within their bundle, and marked when the clock stands before its last entry. */
export function record(
  { bundle, now, paper }: Situation,
  hand: HandId,
  facts: readonly Told[],
): Result<readonly EntryDraft[]> {
  const at = formatStamp(now);
  const back = bundle && !paper ? passed(bundle.lastAt, at).setBackMs / 1000 : 0;
  const mark = { ...(back > 0 ? { clockBack: back } : {}), ...(paper ? { paper } : {}) };
  return ok(
    facts.map((fact, index) => ({
      kind: fact.kind,
      body:
        'ticket' in fact.body && fact.kind !== 'ticketed'
          ? { ...fact.body, nth: (bundle?.entries ?? 0) + 1 + index, ...mark }
          : fact.body,
      at,
      hand,
    })) as readonly EntryDraft[],
  );
}
