import { assertNever } from '../base/assert-never.ts';
import type { Digest, HandId } from '../base/brand.ts';
import { type Result, refuse } from '../base/result.ts';
import { namesIn } from '../procedure/evaluate.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { barred, noRelease, noReleaseThen, notAtWork, notOpened, onHold } from './barred.ts';
import { allChecks, type Bundle, type Check, checksOf, openHold, pointKey, setsConceded, setsLeft } from './bundle.ts';
import type { BundleCommand, Command } from './command.ts';
import type { EntryDraft } from './entries.ts';
import { releaseOnPaper } from './from-paper.ts';
import { next } from './next.ts';
import { currentRelease, nameOf, type Release, releaseOfText } from './room.ts';
import { actor, type BundleSituation, record, type Told, workers } from './situation.ts';

type Here = Extract<
  BundleCommand,
  { readonly do: 'open' | 'resume' | 'pause' | 'hand over' | 'read changes' | 'strike' | 'note' | 'finish' }
>;

/** Commands that concern a bundle as a whole: who has it, what is crossed out, its end. */
export function decideBundle(
  situation: BundleSituation,
  command: Extract<Command, Here>,
): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  const { hand } = command;
  const { ticket } = bundle;
  const who = actor(room, hand, workers);
  if (!who.ok) return who;
  const leave = (...facts: readonly Told[]): Result<readonly EntryDraft[]> => record(situation, hand, facts);

  switch (command.do) {
    case 'open': {
      if (bundle.text)
        return refuse('opened-already', '{ticket} has been opened before: take it up again instead.', { ticket });
      const release = command.paper
        ? releaseOnPaper(room, bundle, command.paper.doneAt)
        : currentRelease(room, bundle.procedure);
      if (!release)
        return command.paper ? noReleaseThen(bundle.procedure, command.paper.doneAt) : noRelease(bundle.procedure);
      const { procedure, revision, digest, understood } = release;
      return leave({
        kind: 'opened',
        body: { ticket, procedure, revision, digest, understood, ...changedFrom(situation, command, release) },
      });
    }
    case 'resume': {
      if (!bundle.text) return notOpened(bundle);
      const mayTake = bundle.hand === hand || who.value.role === 'supervisor' || bundle.work === 'paused';
      if (!mayTake) return withAnother(situation);
      const { procedure } = bundle;
      const { digest } = bundle.text;
      return leave({
        kind: 'resumed',
        body: { ticket, procedure, digest, ...changedFrom(situation, command, bundle.text) },
      });
    }
    case 'pause':
      return (
        notAtWork(bundle, hand) ??
        leave({ kind: 'paused', body: { ticket, ...(command.reason ? { reason: command.reason } : {}) } })
      );
    case 'hand over': {
      const to = actor(room, command.to, workers);
      if (!to.ok) return to;
      if (!bundle.text) return notOpened(bundle);
      if (command.to === bundle.hand)
        return refuse('has-it-already', '{name} has {ticket} already: go on.', { name: to.value.name, ticket });
      if (bundle.hand !== hand && who.value.role !== 'supervisor') return withAnother(situation);
      return leave({ kind: 'handed-over', body: { ticket, to: command.to } });
    }
    case 'read changes': {
      const bar = notAtWork(bundle, hand);
      if (bar) return bar;
      if (!bundle.text || bundle.changesToRead?.hand !== hand)
        return refuse('no-changes', 'There are no changes to read: go on.');
      const { from, read } = bundle.changesToRead;
      const { change, of } = command;
      if (change !== read + 1 || !Number.isSafeInteger(of) || of < change)
        return refuse('changes-order', 'Change {number} is to be read next: read them one after another.', {
          number: read + 1,
        });
      const { digest, understood } = bundle.text;
      const to = releaseOfText(room, from)?.digest === digest ? understood : digest;
      const body = { ticket, procedure: bundle.procedure, from, to };
      return leave({ kind: 'changes-read', body: of === 1 ? body : { ...body, change, of } });
    }
    case 'strike': {
      const check = allChecks(bundle).find((each) => each.seq === command.entry);
      if (!check || check.struck || check.again)
        return refuse('nothing-to-strike', 'That entry no longer counts: look back and choose one that does.');
      if (!command.reason.trim()) return refuse('reason-missing', 'Say in a few words why it is struck.');
      if (check.hand !== hand && who.value.role !== 'supervisor')
        return refuse('not-your-entry', '{name} recorded that: let {name} or a supervisor strike it.', {
          name: nameOf(room, check.hand),
        });
      const hold = openHold(bundle);
      if (hold) return onHold(bundle, hold.name);
      const { reason } = command;
      const fallsToo = workedOutFrom(situation.procedure, bundle, check).map((each) =>
        strike(each, `worked out from a struck reading: ${reason}`),
      );
      return leave(strike(check, reason), ...fallsToo);
    }
    case 'note': {
      const { text } = command;
      if (!text.trim()) return refuse('note-empty', 'Write the note behind the word.');
      const wanted = next(situation.procedure, room, bundle, hand);
      const at = 'at' in wanted ? wanted.at : undefined;
      return leave({ kind: 'noted', body: { ticket, set: at?.set ?? null, step: at?.step.id ?? null, text } });
    }
    case 'finish':
      return finish(situation, hand, command.good);
    default:
      return assertNever(command);
  }

  function strike(check: Check, reason: string): Told {
    return { kind: 'struck', body: { ticket, entry: check.seq, reason } };
  }
}

function finish(situation: BundleSituation, hand: HandId, counted: number): Result<readonly EntryDraft[]> {
  const { room, bundle, procedure } = situation;
  const wanted = next(procedure, room, bundle, hand);
  const bar = barred(bundle, hand, wanted);
  if (bar) return bar;
  if (wanted.want !== 'finish')
    return refuse('not-done', '{ticket} is not done: there are points left to check.', { ticket: bundle.ticket });
  const good = setsLeft(bundle).length;
  if (counted !== good) {
    const scrapped = bundle.scrapped.size;
    if (scrapped > 0)
      return refuse(
        'count-balance',
        'Of {sets} sets {scrapped} scrapped leaves {good}, and you counted {counted}: count again, or hold the bundle.',
        { sets: bundle.sets, scrapped, good, counted },
      );
    return good === 1
      ? refuse(
          'count-balance',
          'There should be 1 good set, and you counted {counted}: count again, or hold the bundle.',
          { counted },
        )
      : refuse(
          'count-balance',
          'There should be {good} good sets, and you counted {counted}: count again, or hold the bundle.',
          { good, counted },
        );
  }
  const { ticket, sets, scrapped } = bundle;
  const conceded = setsConceded(bundle).length;
  return record(situation, hand, [
    { kind: 'finished', body: { ticket, sets, good, conceded, scrapped: scrapped.size, held: 0 } },
  ]);
}

/** Computed points that used this reading fall with it. */
function workedOutFrom(procedure: Procedure, bundle: Bundle, struck: Check): readonly Check[] {
  const points = procedure.steps.flatMap((step) => step.points.map((point) => ({ step, point })));
  const sets = struck.set === null ? [null, ...setsLeft(bundle)] : [struck.set, null];
  const fallen = new Set<string>();
  const checks: Check[] = [];
  // Points are answered in the order of the text, so a point that names another always comes after it.
  for (const { step, point } of points) {
    const isStruck = step.id === struck.step && point.id === struck.point;
    const falls = point.kind === 'computed' && namesIn(point.formula).some((each) => fallen.has(each));
    if (!isStruck && !falls) continue;
    if ('name' in point && point.name) fallen.add(point.name);
    if (!isStruck) checks.push(...sets.flatMap((set) => checksOf(bundle, pointKey(set, step.id, point.id))));
  }
  return checks.filter((check) => !check.struck && !check.again);
}

function withAnother({ room, bundle }: BundleSituation): Result<never> {
  const { ticket, hand } = bundle;
  const owner = hand ? nameOf(room, hand) : 'another';
  return refuse(
    'with-another',
    '{ticket} is with {owner}: ask {owner} to leave it or hand it over, or a supervisor to take it.',
    { ticket, owner },
  );
}

/**
 * The text the hand played last, when it is another one; of the same words with other pictures, what those were understood as. On paper
 * nobody reads what changed.
 */
function changedFrom(
  { room, bundle }: BundleSituation,
  { hand, paper }: Command,
  now: Pick<Release, 'digest' | 'understood'>,
): { changedFrom?: Digest } {
  const understood = room.lastPlayed.get(hand)?.get(bundle.procedure);
  if (paper || !understood || understood === now.understood) return {};
  const last = releaseOfText(room, understood)?.digest ?? understood;
  return { changedFrom: last === now.digest ? understood : last };
}
