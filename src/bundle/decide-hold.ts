import { assertNever } from '../base/assert-never.ts';
import type { StepId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { notOpened, onHold } from './barred.ts';
import { type Hold, openHold, setsLeft, workedOn } from './bundle.ts';
import type { BundleCommand, Command, SettleHow } from './command.ts';
import type { EntryDraft, Settling } from './entries.ts';
import { kitPiece } from './kit-piece.ts';
import { lastDay } from './last-day.ts';
import { wantedPoint } from './next.ts';
import { nameOf } from './room.ts';
import { stepsFrom } from './route.ts';
import { actor, type BundleSituation, record, workers } from './situation.ts';

/** Stopping a bundle, and what a supervisor may let become of it. */
export function decideHold(
  situation: BundleSituation,
  command: Extract<Command, Extract<BundleCommand, { readonly do: 'hold' | 'settle' }>>,
): Result<readonly EntryDraft[]> {
  const { room, bundle, procedure } = situation;
  const { hand, reason } = command;
  const { ticket } = bundle;
  const who = actor(room, hand, command.do === 'hold' ? workers : ['supervisor']);
  if (!who.ok) return who;
  const open = openHold(bundle);

  if (command.do === 'hold') {
    if (open) return onHold(bundle, open.name);
    if (!bundle.text) return notOpened(bundle);
    if (!reason.trim()) return refuse('reason-missing', 'Say in a few words what is wrong.');
    const wanted = wantedPoint(procedure, bundle);
    const at = { set: wanted?.at.set ?? null, step: wanted?.at.step.id ?? null };
    const about = command.about === 'point' ? wanted : undefined;
    const what = { point: about?.point.id ?? null, place: about?.place ?? null };
    const name = command.name?.trim();
    if (name && bundle.holds.some((each) => each.name === name))
      return refuse('hold-taken', '{ticket} has had a hold {name} before: give this one another name, or none.', {
        ticket,
        name,
      });
    const hold = name || numbered('H', room.lastHold + 1);
    return record(situation, hand, [{ kind: 'held', body: { ticket, hold, ...at, ...what, reason } }]);
  }

  if (!open || open.name !== command.hold)
    return refuse('no-such-hold', '{ticket} has no open hold {hold}: look at its holds.', {
      ticket,
      hold: command.hold,
    });
  if (!reason.trim()) return refuse('reason-missing', 'Say in a few words why it is settled so.');
  const set = 'set' in command.how && command.how.set !== undefined ? command.how.set : open.set;
  if (workedOn(bundle, hand, open.set) || workedOn(bundle, hand, set))
    return refuse(
      'own-work',
      '{name} worked on this: nobody settles a hold on their own work, so ask another supervisor.',
      { name: nameOf(room, hand) },
    );
  if (set !== null && !setsLeft(bundle).includes(set))
    return refuse('no-such-set', '{ticket} has no set {set} at work: name another.', { ticket, set });
  const how = settling(situation, open, command.how);
  return how.ok
    ? record(situation, hand, [{ kind: 'settled', body: { ticket, hold: open.name, set, how: how.value, reason } }])
    : how;
}

function settling(situation: BundleSituation, hold: Hold, how: SettleHow): Result<Settling> {
  switch (how.as) {
    case 'rework':
    case 'recut': {
      const again = stepsToRepeat(situation, hold, how.step);
      if (!again.ok) return again;
      if (how.as === 'rework') return ok({ as: 'rework', step: how.step, again: again.value });
      const { newPiece, roll, step } = how;
      if (!how.piece.trim() || !newPiece.trim() || how.piece.trim() === newPiece.trim())
        return refuse('piece-name', 'Name the piece that is replaced and the new piece, such as C and C-R1.');
      const found =
        how.kit === 'not asked' ? ok({ piece: how.piece }) : kitPiece(situation.procedure, situation.bundle, how.piece);
      if (!found.ok) return found;
      return ok({ as: 'recut', ...found.value, newPiece, ...(roll ? { roll } : {}), step, again: again.value });
    }
    case 'concession': {
      if (!how.limit.trim())
        return refuse('concession-limit', 'A concession needs its limit: how many, or for which use.');
      const expires = lastDay(how.expires, situation.now);
      if (!expires.ok) return expires;
      const name = how.name?.trim() || numbered('K', situation.room.lastConcession + 1);
      return ok({ as: 'concession', name, limit: how.limit, expires: expires.value });
    }
    case 'scrap':
      return ok({ as: 'scrap', set: how.set });
    default:
      return assertNever(how);
  }
}

/** Rework goes back, or to the step of the hold itself; never forward over work not done. */
function stepsToRepeat({ procedure }: BundleSituation, hold: Hold, back: StepId): Result<readonly StepId[]> {
  const again = stepsFrom(procedure, back);
  if (again.length === 0)
    return refuse('no-such-step', 'This procedure has no step {back}: name one of its steps.', { back });
  if (hold.step && !again.includes(hold.step))
    return refuse('rework-forward', 'Work can only go back: name the step of the hold or one before it.');
  return ok(again);
}

const numbered = (letter: string, number: number): string => `${letter}-${String(number).padStart(3, '0')}`;
