import { type Result, refuse } from '../base/result.ts';
import { notOpened } from './barred.ts';
import { isKeptOn, revisionInUse } from './behind.ts';
import type { Command } from './command.ts';
import type { EntryDraft } from './entries.ts';
import { actor, type BundleSituation, record } from './situation.ts';

/** A supervisor lets a bundle be finished on the revision it was opened with, although another is in use now, or none. */
export function decideKeptOn(
  situation: BundleSituation,
  { hand }: Extract<Command, { readonly do: 'keep on' }>,
): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  const { ticket, text } = bundle;
  const who = actor(room, hand, ['supervisor']);
  if (!who.ok) return who;
  if (!text) return notOpened(bundle);
  const current = revisionInUse(room, bundle);
  if (text.revision === current)
    return refuse(
      'revision-in-use',
      '{ticket} is on revision {current}, which is in use: there is nothing to decide.',
      { ticket, current },
    );
  if (isKeptOn(room, bundle))
    return refuse('kept-on-already', '{ticket} is to be finished on revision {revision} already: let it go on.', {
      ticket,
      revision: text.revision,
    });
  return record(situation, hand, [{ kind: 'kept-on', body: { ticket, revision: text.revision, current } }]);
}
