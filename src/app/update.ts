import { assertNever } from '../base/assert-never.ts';
import { isGoodVerdict, openHold } from '../bundle/bundle.ts';
import type { Command } from '../bundle/command.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import type { Next } from '../bundle/next.ts';
import { nameOf } from '../bundle/room.ts';
import type { Say } from '../words/say.ts';
import {
  answered,
  fresh,
  intended,
  left,
  leftWords,
  openAgain,
  openForm,
  refusal,
  type Step,
  signOn,
  takeTicket,
} from './acts.ts';
import { type App, type Message, type Play, playOf, undoable } from './app.ts';
import { keptRow, rowAt } from './desk.ts';
import type { Arrived, News } from './effect.ts';
import { isLockDue, locked, unlock, unlocked } from './lock.ts';
import { metresSaid } from './metres.ts';
import { moved } from './moved.ts';
import { onPaper } from './paper-time.ts';
import { pinSaid } from './pin-ask.ts';
import { settledWays } from './signed-words.ts';
import { speak, why } from './speak.ts';

/** The program after one more piece of news, and what it wants done because of it. */
export function update(before: App, arrived: Arrived): Step {
  const { now } = arrived;
  if (before.ended !== null) return [{ ...before, now }, []];
  const isTouch = byPerson.has(arrived.news);
  // Leaving is never refused: a closed window and a signal leave in the same way.
  const leaves = arrived.news === 'move' && arrived.move.move === 'order' && arrived.move.order === 'quit';
  if (isLockDue(before, now) && !leaves && (isTouch || arrived.news === 'second'))
    return [locked({ ...before, now }), []];
  const app = { ...before, now, ...(isTouch ? { touchedMs: now.ms } : {}) };
  switch (arrived.news) {
    case 'second':
      // An unchanged state is the same state, so that nothing is drawn for nothing.
      return [
        showsTime(app, before) ? app : before,
        app.play === null || waitsForOthers(app.play) ? [{ effect: 'look' }] : [],
      ];
    case 'move':
      return moved(app, arrived.move);
    case 'intent':
      return intended(app, arrived.intent);
    case 'form':
      return [openForm(app, arrived.form), []];
    case 'form answer':
      return app.layer?.layer === 'form' ? answered(app, app.layer.form, arrived.text) : [app, []];
    case 'lock':
      return [locked(app, arrived.kept), []];
    case 'sign on':
      return app.lock ? unlock(app, arrived.who) : signOn(app, arrived.who);
    case 'ticket':
      return takeTicket(app, arrived.ticket);
    case 'refused':
      return refusedNews(app, arrived);
    case 'pin asked':
      return [{ ...app, pin: { to: arrived.to, stage: { is: arrived.stage }, typed: '' }, message: null }, []];
    case 'pin':
      return app.pin ? pinSaid(app, app.pin, arrived.text) : [app, []];
    case 'seen':
      return [isNew(before, arrived) ? sameRow(app, seen(app, arrived)) : before, []];
    case 'pictures':
      return [{ ...app, pictures: arrived.pictures }, []];
    case 'words':
      return [{ ...app, words: { ...app.words, hand: arrived.words } }, []];
    case 'paper time':
      return [onPaper(app, arrived.stamp), []];
    case 'drafts':
      return [app.desk === null ? app : sameRow(app, { ...app, desk: { ...app.desk, drafts: arrived.drafts } }), []];
    case 'taken': {
      const { room, bundles, playing, changes } = arrived;
      if (app.hand === null) return [app, []];
      return [
        fresh({
          ...app,
          room,
          bundles,
          bound: null,
          pin: null,
          play: playOf(playing, room, app.hand, { last: null, changes }),
          message: null,
        }),
        [],
      ];
    }
    case 'done':
      return done(app, arrived);
    default:
      return assertNever(arrived);
  }
}

const PIN_RULES: ReadonlySet<string> = new Set(['pin-wrong', 'pin-wait', 'pin-needed']);

/** News that somebody at the station makes. */
const byPerson: ReadonlySet<News['news']> = new Set([
  'move',
  'intent',
  'form',
  'form answer',
  'sign on',
  'ticket',
  'pin',
  'paper time',
]);

function refusedNews(app: App, news: Extract<News, { readonly news: 'refused' }>): Step {
  const { refusal: refused, command } = news;
  const message = refusal(why(app, refused));
  // The question stays for another try; what else is refused was not for want of a PIN.
  if (app.pin && PIN_RULES.has(refused.rule)) return [{ ...app, message }, []];
  if (app.pin) return refusedNews({ ...app, pin: null }, news);
  // At a lock another hand has taken over the station; the bundle had been taken from the first one before.
  if (!app.play && command?.do === 'pause') return [app, []];
  // What cannot be left is in somebody else's hands: there is nothing of this hand's to record.
  if (app.play && command?.do === 'pause') return [left(app, app.play, message), []];
  // Somebody who may not take up the one ticket this is about is not who is needed here.
  if (!app.play && app.bound !== null) return [{ ...app, hand: null, field: '', message }, []];
  // It may be refused because somebody else has gone on with the bundle: then the screen must say so.
  return [{ ...app, layer: openAgain(app.layer), message }, app.play ? [{ effect: 'look' }] : []];
}

function done(app: App, { command, entries, room, bundles, playing }: Extract<News, { readonly news: 'done' }>): Step {
  const now = { ...app, room, bundles, pin: null };
  if (command.do === 'sign on') {
    if (app.lock) return unlocked({ ...now, lock: app.lock }, command.hand);
    const hello = {
      tone: 'good',
      text: speak({ ...app, hand: command.hand })('{name} is signed on.', { name: nameOf(room, command.hand) }),
    } as const;
    const signed = fresh({ ...now, hand: command.hand, foldedBy: null, message: hello });
    return [signed, app.bound === null ? [] : [{ effect: 'take', ticket: app.bound, hand: command.hand }]];
  }
  if (!app.play || !playing || app.hand === null) return [{ ...now, ...atDesk(app, command, playing) }, []];
  if (command.do === 'settle' && app.home === 'desk')
    return [
      left(now, app.play, {
        tone: 'good',
        text: speak(app)('{hold} of {ticket} is settled.', { hold: command.hold, ticket: app.play.ticket }),
      }),
      [],
    ];
  if (command.do === 'pause') return [left(now, app.play, leftWords(app, app.play)), []];
  if (command.do === 'hand over')
    return [
      left(now, app.play, {
        tone: 'good',
        text: speak(app)('{ticket} is handed over to {name}.', {
          ticket: app.play.ticket,
          name: nameOf(room, command.to),
        }),
      }),
      [],
    ];
  const play = playOf(playing, room, app.hand, { last: lastOf(command, entries, app), changes: app.play.changes });
  const outside = entries.find(isOutside);
  return [
    fresh({ ...now, play, message: outside ? null : word(speak(app), command, entries) }),
    outside ? [{ effect: 'bell' }] : [],
  ];
}

/** What was chosen at the desk stays chosen, wherever it stands now, and is chosen again when it was away. */
function sameRow(before: App, after: App): App {
  if (after.desk === null || after.hand === null || after.play) return after;
  const row = before.desk?.row ?? keptRow(before).desk?.row;
  const kept = row === undefined ? after : { ...after, desk: { ...after.desk, row } };
  return { ...kept, chosen: rowAt(kept) };
}

/** What a supervisor is told who decided something without opening the bundle. */
function atDesk(
  app: App,
  command: Command,
  playing: Extract<News, { readonly news: 'done' }>['playing'],
): Partial<App> {
  if (command.do !== 'keep on' || !playing) return {};
  const { ticket, text } = playing.bundle;
  return {
    message: {
      tone: 'good',
      text: speak(app)('{ticket} is to be finished on revision {revision}.', {
        ticket,
        revision: text?.revision ?? '',
      }),
    },
  };
}

/** Somebody else may settle the hold, or enter who can stand by. */
const waitsForOthers = ({ bundle, next }: Play): boolean => openHold(bundle) !== undefined || next.want === 'helping';

/** Whether a screen tells the time that passed: a running clock, an undo about to lapse, or how long a bundle has waited. */
function showsTime(app: App, before: App): boolean {
  const next = app.play?.next;
  const runs = next?.want === 'point' && next.clock !== null;
  return runs || undoable(before) !== null || Math.floor(app.now.ms / 60_000) !== Math.floor(before.now.ms / 60_000);
}

function isNew(app: App, { room, bundles, playing }: Extract<News, { readonly news: 'seen' }>): boolean {
  const same =
    room === app.room &&
    playing?.bundle === app.play?.bundle &&
    bundles.length === app.bundles.length &&
    bundles.every((bundle, index) => bundle === app.bundles[index]);
  return !same;
}

/** Another process may have settled a hold, or finished a bundle; what this person is typing stays. */
function seen(app: App, { room, bundles, playing }: Extract<News, { readonly news: 'seen' }>): App {
  const { play, hand } = app;
  const now = { ...app, room, bundles };
  if (!play || !playing || hand === null || (playing.bundle === play.bundle && room === app.room)) return now;
  const after = playOf(playing, room, hand, play);
  return wantsTheSame(after.next, play.next) ? { ...now, play: after } : fresh({ ...now, play: after });
}

/** What is being typed was meant for one blank, or one hold, and for no other. */
function wantsTheSame(a: Next, b: Next): boolean {
  if (a.want === 'point' && b.want === 'point')
    return a.at.set === b.at.set && a.at.step.id === b.at.step.id && a.point.id === b.point.id && a.place === b.place;
  if (a.want === 'settling' && b.want === 'settling') return a.hold.name === b.hold.name;
  return a.want === b.want && a.want !== 'caution' && a.want !== 'changes';
}

const isOutside = (entry: RecordedEntry): boolean => entry.kind === 'checked' && !isGoodVerdict(entry.body.verdict);

function lastOf(command: Command, entries: readonly RecordedEntry[], { now }: App): Play['last'] {
  if (command.do === 'fit bobbin') return 'bobbin';
  const entry = entries.findLast(({ kind }) => kind === 'checked');
  return command.do === 'check' && entry ? { entry: entry.seq, ms: now.ms } : null;
}

function word(say: Say, command: Command, entries: readonly RecordedEntry[]): Message | null {
  switch (command.do) {
    case 'strike':
      return {
        tone: 'good',
        text:
          entries.length > 1
            ? say('Struck, with {count} worked out from it.', { count: entries.length - 1 })
            : say(
                command.reason === 'wrong key'
                  ? 'Taken back. It stays readable as struck.'
                  : 'Struck. It stays readable.',
              ),
      };
    case 'note':
      return { tone: 'good', text: say('Noted.') };
    case 'fit bobbin':
      return { tone: 'good', text: say('Bobbin: {left} m from here on.', { left: metresSaid(command.wound) }) };
    case 'settle':
      return {
        tone: 'good',
        text: say('{hold} is settled: {way}.', { hold: command.hold, way: say(settledWays[command.how.as]) }),
      };
    case 'go back':
      return { tone: 'good', text: say('Gone back, as the step says.') };
    case 'start clock':
      return { tone: 'good', text: say('The clock runs, also while you are away.') };
    default:
      return null;
  }
}
