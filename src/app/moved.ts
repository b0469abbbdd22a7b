import { assertNever } from '../base/assert-never.ts';
import { graphemes } from '../base/columns.ts';
import { oneLine } from '../base/text.ts';
import {
  answered,
  finishedWords,
  fresh,
  intended,
  left,
  openForm,
  refusal,
  type Step,
  signOn,
  takeTicket,
} from './acts.ts';
import { type App, type Form, type Layer, notUndone } from './app.ts';
import { chose, numbered, unchosen } from './choosing.ts';
import { onlyLooks } from './desk.ts';
import { keptOn, openedAtDesk, sentOn, showing } from './desk-moved.ts';
import { findHand } from './find-hand.ts';
import { isFolded, whyUnfolded } from './fold.ts';
import { question } from './form.ts';
import { lists, lookedBack, signable, waiting } from './lists.ts';
import { lockMoved } from './lock.ts';
import { hearing, isOpen, modeOf } from './mode.ts';
import type { Mode, Move, Order, ScrollRange } from './move.ts';
import { pinMoved, unasked } from './pin-ask.ts';
import { speak, why } from './speak.ts';
import { rubbedOutOf } from './typing.ts';

/** The program after one move of the person before the screen. */
export function moved(before: App, move: Move): Step {
  const asked = before.pin && pinMoved(before, before.pin, move);
  if (asked) return asked;
  // Whoever leaves lets the signature be.
  const app = before.pin ? unasked(before) : before;
  if (app.lock) return lockMoved(app, app.lock, move) ?? leftLocked(app);
  const mode = modeOf(app);
  switch (move.move) {
    case 'type':
      return typed(app, mode, move.text);
    case 'erase':
      return mode === 'choice' || mode === 'form choice'
        ? still(numbered(app, mode, rubbedOutOf(app.field)))
        : still({ ...app, field: rubbedOutOf(app.field), message: null });
    case 'up':
    case 'down':
      return still(
        mode in lists
          ? chose(app, mode, move.move === 'up' ? -1 : 1)
          : scrolled(app, move.move === 'up' ? -1 : 1, move.within),
      );
    case 'page up':
    case 'page down': {
      const by = move.move === 'page up' ? -PAGE : PAGE;
      return still(allList.has(mode) ? chose(app, mode, by) : scrolled(app, by, move.within));
    }
    case 'escape':
      return escaped(app, mode);
    case 'enter':
      return entered(app, mode);
    case 'scan':
      return scanned(app, mode, move.text);
    case 'order':
      return ordered(app, move.order);
    default:
      return assertNever(move);
  }
}

const PAGE = 8;

/** Screens that are nothing but a list: keys act on the row that is chosen, so it never goes out of sight. */
const allList: ReadonlySet<Mode> = new Set(['sign on', 'station', 'desk', 'look back']);
const LONGEST_FIELD = 200;

const still = (app: App): Step => [app, []];

/** Never further than the screen goes, so that the way back is as long as the way there. */
function scrolled(app: App, by: number, within: ScrollRange = { least: -Infinity, most: Infinity }): App {
  const inside = (rows: number): number => Math.min(within.most, Math.max(within.least, rows));
  return { ...app, scroll: inside(inside(app.scroll) + by) };
}

function typed(app: App, mode: Mode, text: string): Step {
  if (mode === 'choice' || mode === 'form choice') return still(numbered(app, mode, app.field + oneLine(text)));
  if (mode !== 'value' && hearing(mode) === 'commands')
    return still({
      ...app,
      message: refusal(
        speak(app)('{text} was typed, but there is nothing to type here. Nothing was kept.', {
          text: `“${oneLine(text)}”`,
        }),
      ),
    });
  // After a refusal the next thing typed or scanned is a new answer; rubbing out mends the old one.
  const before = app.message?.tone === 'refusal' ? '' : app.field;
  const all = graphemes(before + oneLine(text));
  const tooLong = all.length > LONGEST_FIELD;
  const field = all.slice(0, LONGEST_FIELD).join('');
  const message = tooLong
    ? refusal(speak(app)('Only the first {longest} letters were kept: say it in fewer.', { longest: LONGEST_FIELD }))
    : null;
  return still({ ...app, field, scroll: 0, message });
}

function escaped(app: App, mode: Mode): Step {
  if (app.layer) return still(uncovered(app));
  if (mode === 'words') return still({ ...app, layer: { layer: 'one key' } });
  if (app.field !== '') return still({ ...app, field: '', message: null });
  if (mode === 'station' || mode === 'desk') return ordered(app, 'sign off');
  return still({ ...app, scroll: 0, message: null });
}

/** Without the layer: as the screen was, with what was being typed; an option that was chosen before is chosen anew. */
function uncovered(app: App): App {
  const { layer } = app;
  if (layer?.layer === 'keys' && layer.over) return { ...app, layer: layer.over, scroll: 0, message: null };
  return {
    ...fresh(app),
    ...(layer?.layer === 'draft' || app.play === null ? { chosen: app.chosen } : {}),
    field: layer?.layer === 'form' ? '' : app.field,
    message: null,
  };
}

function entered(app: App, mode: Mode): Step {
  switch (mode) {
    case 'sign on':
      return signOn(app, app.field === '' ? (signable(app)[app.chosen]?.id ?? '') : app.field);
    case 'desk':
      return openedAtDesk(app);
    case 'draft':
      return still(uncovered(app));
    case 'station':
      return takeTicket(app, app.field === '' ? (waiting(app)[app.chosen]?.ticket ?? '') : app.field);
    case 'caution':
    case 'changes':
    case 'confirm':
      if (onlyLooks(app)) return still(app.play ? left(app, app.play, null) : app);
      // Enter behind something that was meant for another screen is meant for it too: it only takes note of the refusal.
      return app.message?.tone === 'refusal'
        ? still({ ...app, message: null })
        : intended(app, { intent: 'answer', text: '' });
    case 'value':
    case 'value begun':
    case 'words':
      return intended(app, { intent: 'answer', text: app.field });
    case 'choice':
      return app.chosen < 0 ? still(unchosen(app)) : intended(app, { intent: 'answer', text: String(app.chosen + 1) });
    case 'hold':
      return still({
        ...app,
        message: refusal(speak(app)('On hold: a supervisor settles it, or leave the bundle here.')),
      });
    case 'finished':
      return app.play ? still(left(app, app.play, finishedWords(app, app.play))) : still(app);
    case 'form words':
      return app.layer?.layer === 'form' ? answered(app, app.layer.form, app.field) : still(app);
    case 'form choice':
      if (app.chosen < 0) return still(unchosen(app));
      return app.layer?.layer === 'form'
        ? answered(app, app.layer.form, chosenOption(app, app.layer.form))
        : still(app);
    case 'keys':
    case 'one key':
    case 'look back':
    case 'picture':
      return still(uncovered(app));
    case 'pin':
    case 'locked':
    case 'over':
      return still(app);
    default:
      return assertNever(mode);
  }
}

/** The words of the option, never its place: an option may itself be a number. */
const chosenOption = (app: App, form: Form): string => question(app, form)?.options?.[app.chosen]?.is ?? '?';

function scanned(app: App, mode: Mode, text: string): Step {
  const said = oneLine(text);
  if (asksForMetres(app)) return nothingToScan(app, text);
  // A device gives a whole value, whatever a hand had begun to type before it.
  if (mode === 'value' || mode === 'value begun' || mode === 'sign on' || mode === 'station')
    return entered({ ...app, field: said, message: null }, mode);
  if (hearing(mode) === 'text') {
    const [full] = app.field.endsWith(said) ? still(app) : typed(app, mode, said);
    return entered(full, mode);
  }
  if (mode === 'finished' && app.play && app.home === 'station') return takeTicket(left(app, app.play, null), text);
  if (mode === 'hold' && findHand(app.room, text).ok) {
    const form = { about: 'settle', answers: {} } as const;
    return answered(openForm(app, form), form, text);
  }
  return nothingToScan(app, text);
}

/** No label says what is on a bobbin: the number of a ticket would be taken for its metres. */
const asksForMetres = ({ layer, play }: App): boolean =>
  layer?.layer === 'form' ? layer.form.about === 'bobbin' : layer === null && play?.next.want === 'bobbin';

const nothingToScan = (app: App, text: string): Step =>
  still({
    ...app,
    message: refusal(
      speak(app)('{text} was scanned, but there is nothing to scan here. Nothing was kept.', {
        text: `“${oneLine(text)}”`,
      }),
    ),
  });

function ordered(app: App, order: Order): Step {
  // One key after escape: whatever the order does, the field listens again afterwards.
  const on: App = app.layer?.layer === 'one key' ? { ...app, layer: null } : app;
  if (order === 'undo' && app.play && !isOpen(app, order))
    return still({ ...on, message: refusal(why(app, notUndone(app).error)) });
  const unfolded = order === 'fold' ? whyUnfolded(app) : null;
  if (unfolded !== null) return still({ ...on, message: refusal(unfolded) });
  if (!isOpen(app, order)) return still(on);
  switch (order) {
    case 'settle':
      return settled(on);
    case 'hold':
    case 'note':
    case 'hand over':
    case 'go back':
    case 'bobbin':
      return still(openForm(on, { about: order, answers: {} }));
    case 'strike': {
      const check = lookedBack(app)[app.chosen];
      if (!check || check.struck || check.again)
        return still({ ...app, message: refusal(speak(app)('That one no longer counts: choose another.')) });
      return still(openForm(app, { about: 'strike', entry: check.seq, answers: {} }));
    }
    case 'undo':
      return intended(on, { intent: 'undo' });
    case 'look back':
      return still(layered(on, { layer: 'look back' }));
    case 'picture':
      return still(layered(on, { layer: 'picture' }));
    case 'keys':
      // While something is being typed at the station, the question mark is a letter of it.
      return app.layer === null && app.play === null && app.field !== ''
        ? typed(app, modeOf(app), '?')
        : still({ ...layered(on, { layer: 'keys', over: on.layer }), chosen: on.chosen });
    case 'one key':
      return still({ ...app, layer: { layer: 'one key' } });
    case 'big':
      return still({ ...on, letters: app.letters === 'big' ? 'normal' : 'big' });
    case 'fold':
      return still({ ...on, foldedBy: isFolded(on) ? null : on.hand, scroll: 0, message: null });
    case 'leave':
      return on.play ? intended(on, { intent: 'leave' }) : quit(on);
    case 'edit':
    case 'rehearse':
    case 'release':
      return sentOn(on, order);
    case 'keep on':
      return keptOn(on);
    case 'findings':
    case 'reading':
      return showing(on, order);
    case 'compare':
      return showing(on, 'changes');
    case 'sign off':
      return still(fresh({ ...on, hand: null, message: null }));
    case 'quit':
      return on.play ? intended({ ...on, home: 'out' }, { intent: 'leave' }) : quit(on);
    default:
      return assertNever(order);
  }
}

/** At the desk whoever is signed on settles; at a machine it is asked who does. */
const settled = (app: App): Step =>
  still(openForm(app, { about: 'settle', answers: app.home === 'desk' && app.hand !== null ? { by: app.hand } : {} }));

const layered = (app: App, layer: Layer): App => ({
  ...app,
  layer,
  chosen: app.play ? 0 : app.chosen,
  scroll: 0,
  message: null,
});

/** Whoever ends the program at a lock is nobody known. */
const leftLocked = (app: App): Step =>
  app.play
    ? intended({ ...app, lock: null, home: 'out' }, { intent: 'leave', reason: 'the station had locked itself' })
    : quit(app);

const quit = (app: App): Step => still({ ...app, ended: 0 });
