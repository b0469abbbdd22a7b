import { ok, type Result, refuse } from '../base/result.ts';
import { noRelease } from './barred.ts';
import type { Command } from './command.ts';
import { type EntryDraft, THE_ROOM } from './entries.ts';
import { currentRelease } from './room.ts';
import { actor, type BundleSituation, record, workers } from './situation.ts';

/**
 * Puts a ticket's code on paper. Whoever may make a ticket prints it once; any paper after that is a numbered copy, which a supervisor
 * answers for: two labels of one bundle are two bundles to whoever finds them.
 */
export function decidePrint(
  situation: BundleSituation,
  { hand, what }: Extract<Command, { readonly do: 'print' }>,
): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  const { ticket, printed: copy } = bundle;
  if (copy > 0 && hand === THE_ROOM)
    return refuse(
      'copy-supervisor',
      '{ticket} is on paper already: a supervisor prints a copy of it, with --hand NAME.',
      { ticket },
    );
  const who = hand === THE_ROOM ? ok(hand) : actor(room, hand, copy > 0 ? ['supervisor'] : workers);
  if (!who.ok) return who;
  const text = bundle.text ?? currentRelease(room, bundle.procedure);
  if (!text) return noRelease(bundle.procedure);
  return record(situation, hand, [{ kind: 'printed', body: { ticket, what, copy, digest: text.digest } }]);
}
