import { type Result, refuse } from '../base/result.ts';
import { notAtWork } from './barred.ts';
import { stepKey } from './bundle.ts';
import type { Command } from './command.ts';
import type { EntryDraft } from './entries.ts';
import { firstOpenBlank, wantedPoint } from './next.ts';
import { actor, type BundleSituation, record, type Told, workers } from './situation.ts';

/** What the hand says of the bobbin in the machine, and the thread that a step took from it. */
export function decideBobbin(
  situation: BundleSituation,
  command: Extract<Command, { readonly do: 'fit bobbin' | 'use thread' }>,
): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  const { hand } = command;
  const who = actor(room, hand, workers);
  if (!who.ok) return who;
  const bar = notAtWork(bundle, hand);
  if (bar) return bar;
  if (command.do === 'use thread') return used(situation, command);
  const { wound, takes } = command;
  if (!isLength(wound) || (takes !== undefined && !isLength(takes)))
    return refuse('bobbin-length', 'Type the metres on the bobbin, such as 12.5.');
  const before = wantedPoint(situation.procedure, bundle)?.at;
  const at = { set: before?.set ?? null, step: before?.step.id ?? null };
  const more = takes === undefined ? {} : { takes };
  const body = { ticket: bundle.ticket, ...at, wound, left: room.bobbin, ...more };
  return record(situation, hand, [{ kind: 'bobbin-fitted', body }]);
}

/** The thread of a step that is sewn, counted once; nothing for one that is counted. */
export function threadUsed(
  { bundle }: BundleSituation,
  { set, step, took }: Pick<Extract<Command, { readonly do: 'use thread' }>, 'set' | 'step' | 'took'>,
): readonly Told[] {
  const isCounted = bundle.sewn.has(stepKey(set, step)) || !isLength(took);
  return isCounted ? [] : [{ kind: 'thread-used', body: { ticket: bundle.ticket, set, step, took } }];
}

function used(
  situation: BundleSituation,
  command: Extract<Command, { readonly do: 'use thread' }>,
): Result<readonly EntryDraft[]> {
  const { bundle, procedure } = situation;
  const { hand, set, step: id } = command;
  const step = procedure.steps.find((each) => each.id === id);
  const isSewn = step?.points.every((point) => firstOpenBlank(bundle, { set, step }, point) === undefined);
  const facts = isSewn ? threadUsed(situation, command) : [];
  return facts.length > 0
    ? record(situation, hand, facts)
    : refuse('thread-not-used', 'That step is not sewn yet, or its thread is counted: go on.');
}

/** In mm, as a decimal, up to ten kilometres. */
const isLength = (mm: string): boolean =>
  /^\d{1,8}(?:\.\d{1,6})?$/.test(mm) && Number(mm) > 0 && Number(mm) <= 10_000_000;
