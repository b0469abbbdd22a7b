import type { Digest, HandId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { barred, notOpened } from './barred.ts';
import { type Bundle, isGood, isGoodVerdict, liveCheck, pointKey, workedOn } from './bundle.ts';
import type { BundleCommand, Command } from './command.ts';
import { threadUsed } from './decide-bobbin.ts';
import type { EntryDraft } from './entries.ts';
import { whyNotFolded } from './folding.ts';
import { judgeAnswer } from './judge-answer.ts';
import { type Next, next, openBlanks, type WantedPoint } from './next.ts';
import { nameOf, releaseOf } from './room.ts';
import { stepsFrom } from './route.ts';
import { actor, type BundleSituation, record, workers } from './situation.ts';
import { helpers } from './skill.ts';

type Here = Extract<BundleCommand, { readonly do: 'read caution' | 'help' | 'start clock' | 'check' | 'go back' }>;

/** Commands that answer the one thing the bundle wants now. Whatever else they name is refused, with what comes first. */
export function decideAtPoint(
  situation: BundleSituation,
  command: Extract<Command, Here>,
): Result<readonly EntryDraft[]> {
  const { room, bundle, procedure } = situation;
  const { hand } = command;
  const { ticket, text } = bundle;
  const who = actor(room, hand, workers);
  if (!who.ok) return who;
  if (!text) return notOpened(bundle);
  const { digest } = text;
  const wanted = next(procedure, room, bundle, hand);
  const bar = barred(bundle, hand, wanted);
  if (bar) return bar;

  if (command.do === 'help') return helped(situation, command, wanted);
  if (wanted.want === 'helping')
    return refuse('help-first', 'This step takes somebody beside you who does it alone: name who helps first.');
  if (command.do === 'read caution') {
    const { set, step, caution } = command;
    const read = sheetOf(situation, command.sheet);
    if (!read.ok) return read;
    if (wanted.want !== 'caution' || wanted.at.step.id !== step || wanted.at.set !== set || wanted.number !== caution)
      return refuse('not-next', 'That caution is not the one to be read now: look at the screen again.');
    return record(situation, hand, [
      { kind: 'caution-read', body: { ticket, set, step, caution, digest, ...read.value } },
    ]);
  }
  if (wanted.want === 'caution')
    return refuse('caution-first', 'Read the {word} of this step first.', { word: wanted.caution.word });
  if (wanted.want !== 'point') return refuse('nothing-left', 'Every point is done: count the sets and finish.');

  if (command.do === 'go back') return goBack(situation, hand, wanted, command.reason);

  const { set, step, point } = command;
  if (wanted.at.step.id !== step || wanted.at.set !== set || wanted.point.id !== point)
    return outOfOrder(bundle, wanted, command);
  if (command.do === 'start clock') {
    if (wanted.point.kind !== 'timed') return refuse('not-timed', 'This point has no clock: answer it instead.');
    if (wanted.clock) return refuse('clock-runs', 'The clock is running already: stop it when the time is up.');
    return record(situation, hand, [{ kind: 'clock-started', body: { ticket, set, step, point, digest } }]);
  }
  if (wanted.place !== command.place) return outOfOrder(bundle, wanted, command);
  const stays = command.folded ? whyNotFolded(room, hand, wanted.at.step) : null;
  if (stays !== null) return { ok: false, error: stays };
  const folded = command.folded ? { folded: true as const } : {};
  const second = witness(situation, hand, wanted, command.witness);
  if (!second.ok) return second;
  const judged = judgeAnswer(situation, wanted, command.typed);
  if (!judged.ok) return judged;
  const shown = sheetOf(situation, command.sheet);
  if (!shown.ok) return shown;
  const setBack = wanted.clock?.setBack ? { clockWasSetBack: true as const } : {};
  const body = {
    ticket,
    set,
    step,
    point,
    place: command.place,
    ...judged.value,
    ...second.value,
    ...folded,
    ...setBack,
    digest,
    ...shown.value,
  };
  const checked = { kind: 'checked', body } as const;
  const { took } = command;
  // The blank that is answered is the only one that was open in its step.
  const isSewn = took !== undefined && isGoodVerdict(judged.value.verdict) && openBlanks(bundle, wanted.at) === 1;
  const used = isSewn ? threadUsed(situation, { set, step, took }) : [];
  return record(situation, hand, [checked, ...used]);
}

/** The sheet that was on the screen, when it was released with the bundle's text. */
function sheetOf({ room, bundle }: BundleSituation, sheet: Digest | undefined): Result<{ readonly sheet?: Digest }> {
  if (sheet === undefined) return ok({});
  return releaseOf(room, bundle)?.sheets.some(({ digest }) => digest === sheet)
    ? ok({ sheet })
    : refuse('sheet-unknown', 'That sheet was not released with this text: take the bundle up again.');
}

function helped(
  situation: BundleSituation,
  { hand, by, set, step }: Extract<Command, { readonly do: 'help' }>,
  wanted: Next,
): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  if (wanted.want !== 'helping' || wanted.at.step.id !== step || wanted.at.set !== set)
    return refuse('help-not-wanted', 'Nobody needs to stand by here: look at the screen again.');
  const who = actor(room, by, workers);
  if (!who.ok) return who;
  const { skill } = wanted;
  const may = helpers(room, hand, skill);
  if (!may.some(({ id }) => id === by)) {
    const values = { name: who.value.name, skill, names: may.map(({ name }) => name).join(' / ') };
    if (may.length === 0)
      return refuse(
        'help-skill',
        '{name} can’t stand by, and nobody else does {skill} alone: a supervisor enters who can with `walkfoot hand skill`.',
        values,
      );
    return by === hand
      ? refuse('help-self', 'Nobody stands by for themselves: name {names}.', values)
      : refuse('help-skill', '{name} does not do {skill} alone: name {names}.', values);
  }
  return record(situation, hand, [{ kind: 'helped', body: { ticket: bundle.ticket, set, step, by } }]);
}

function witness(
  { room, bundle }: BundleSituation,
  hand: HandId,
  wanted: WantedPoint,
  second: HandId | undefined,
): Result<{ readonly witness?: HandId }> {
  if (wanted.point.kind !== 'hold point')
    return second === undefined
      ? ok({})
      : refuse('no-witness', 'This point takes no second person: answer it yourself.');
  if (second === undefined)
    return refuse(
      'second-person',
      'This point takes a second person: call a supervisor to look and sign with their name.',
    );
  const who = actor(room, second, ['supervisor']);
  if (!who.ok) return who;
  if (second === hand || workedOn(bundle, second, wanted.at.set))
    return refuse('own-work', '{name} worked on this: nobody releases their own work, so call another supervisor.', {
      name: nameOf(room, second),
    });
  return ok({ witness: second });
}

function goBack(
  situation: BundleSituation,
  hand: HandId,
  wanted: WantedPoint,
  reason: string,
): Result<readonly EntryDraft[]> {
  const { procedure, bundle } = situation;
  const { ifOut } = wanted.at.step.facts;
  if (!wanted.outside)
    return refuse('nothing-outside', 'Nothing is outside its limit here: go on, or hold the bundle.');
  if (!ifOut?.backTo)
    return refuse('no-way-back', 'This step does not say to go back: measure again, or hold the bundle.');
  if (!reason.trim()) return refuse('reason-missing', 'Say in a few words why it goes back.');
  const again = stepsFrom(procedure, ifOut.backTo);
  const { ticket } = bundle;
  return record(situation, hand, [
    { kind: 'sent-back', body: { ticket, set: wanted.at.set, step: ifOut.backTo, again, reason } },
  ]);
}

function outOfOrder(
  bundle: Bundle,
  wanted: WantedPoint,
  asked: Extract<Command, { readonly do: 'check' | 'start clock' }>,
): Result<never> {
  const place = asked.do === 'check' ? asked.place : 1;
  return isGood(liveCheck(bundle, pointKey(asked.set, asked.step, asked.point), place))
    ? refuse('done-already', 'That is recorded already: strike it first if it is wrong.')
    : refuse('not-next', 'First comes step {number}, {text}.', {
        number: wanted.at.step.number,
        text: wanted.point.text,
      });
}
