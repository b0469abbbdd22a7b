import type { HandId, ProcedureId } from '../../base/brand.ts';
import { digestOf } from '../../ledger/leaf.ts';
import { findProcedure, type ProcedureFile } from '../../storage/procedure-files.ts';
import { type ReleasePlace, releasable, release } from '../release-draft.ts';
import { pastRevisions } from './past-revisions.ts';

/** Releases the next revision of a procedure, the oldest text first and the one in the room's folder last. */
export type ReleaseNext = (procedure: ProcedureId, by: HandId) => Promise<void>;

export function releaser(place: ReleasePlace): ReleaseNext {
  const waiting = new Map<ProcedureId, ProcedureFile[]>();
  return async (id, by) => {
    const texts = waiting.get(id) ?? revisionsOf(place.folder, id);
    waiting.set(id, texts);
    const text = texts.shift();
    if (!text) throw new Error(`${id} has no more texts to be released`);
    // The sheets in other languages are of the text of today.
    const draft = texts.length > 0 ? releasable(place, text, []) : releasable(place, text);
    const done = draft.outcome === 'releasable' ? await release(place, draft, by) : undefined;
    if (done?.ok) return;
    throw new Error(`${id} cannot be released in the practice room: ${JSON.stringify(done ?? draft)}`);
  };
}

function revisionsOf(folder: string, id: ProcedureId): ProcedureFile[] {
  const found = findProcedure(folder, id);
  if (!found.ok) throw new Error(found.error.message);
  const file = found.value;
  const older = pastRevisions(id, file.text).map((text) => {
    const bytes = new TextEncoder().encode(text);
    return { ...file, text, bytes, digest: digestOf(bytes) };
  });
  return [...older, file];
}
