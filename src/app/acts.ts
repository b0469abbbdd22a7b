import type { TicketId } from '../base/brand.ts';
import { openHold } from '../bundle/bundle.ts';
import { named } from '../bundle/same-name.ts';
import type { App, Form, Message, Play } from './app.ts';
import { rowAt } from './desk.ts';
import type { Effect } from './effect.ts';
import { findHand } from './find-hand.ts';
import { answerForm, intentOf, question, reopened } from './form.ts';
import { commandOf, type Intent } from './intent.ts';
import { speak, why } from './speak.ts';

/** The program after something happened, and what it wants done because of it. */
export type Step = readonly [App, readonly Effect[]];

/** A hand signs on by name, id or badge. */
export function signOn(app: App, who: string): Step {
  const hand = findHand(app.room, who);
  if (!hand.ok) return [{ ...app, message: refusal(why(app, hand.error)) }, []];
  if (app.home === 'desk' && hand.value.role !== 'supervisor')
    return [
      {
        ...app,
        message: refusal(
          speak(app)('The desk is for supervisors, and {name} is none: sew at the station, with `walkfoot`.', {
            name: hand.value.name,
          }),
        ),
      },
      [],
    ];
  return [app, [{ effect: 'attempt', ticket: null, command: { do: 'sign on', hand: hand.value.id } }]];
}

/** A ticket is typed, scanned or chosen. Letters of either case name the same ticket. */
export function takeTicket(app: App, typed: string): Step {
  if (app.hand === null)
    return [{ ...app, message: refusal(speak(app)('Sign on first: type your name, or scan your badge.')) }, []];
  const word = typed.trim();
  if (word === '') return [{ ...app, message: refusal(speak(app)('Type a ticket, or scan one.')) }, []];
  const known = named(
    app.bundles.map(({ ticket }) => ticket),
    word,
  );
  const ticket = known ?? (word.toUpperCase() as TicketId);
  return [app, [{ effect: 'take', ticket, hand: app.hand, ...(app.paper ? { paper: app.paper } : {}) }]];
}

export function intended(app: App, intent: Intent): Step {
  const { play, hand } = app;
  if (!play || hand === null) return [app, []];
  if (intent.intent === 'leave' && !hasInHand(play, app)) {
    const words = play.bundle.work === 'finished' ? finishedWords : leftWords;
    return [left(app, play, words(app, play)), []];
  }
  const command = commandOf(app, play, hand, intent);
  if (!command.ok) return [{ ...app, layer: openAgain(app.layer), message: refusal(why(app, command.error)) }, []];
  return [app, [{ effect: 'attempt', ticket: play.ticket, command: command.value }]];
}

/** A form whose request was refused asks its last question again; escape lets it be. */
export const openAgain = (layer: App['layer']): App['layer'] =>
  layer?.layer === 'form' ? { layer: 'form', form: reopened(layer.form) } : layer;

/** One question of a form is answered; the last one carries out what the form is about. */
export function answered(app: App, form: Form, text: string): Step {
  const next = answerForm(app, form, text);
  if (!next.ok) return [{ ...app, message: refusal(why(app, next.error)) }, []];
  const on = { ...app, field: '', chosen: 0, message: null, layer: { layer: 'form', form: next.value } } as const;
  return question(on, next.value) ? [on, []] : intended(on, intentOf(next.value));
}

export const openForm = (app: App, form: Form): App => ({
  ...app,
  layer: { layer: 'form', form },
  field: '',
  chosen: 0,
  scroll: 0,
  message: null,
});

/** The field, the list and the layers start anew, as they do for each new thing that is wanted. */
export function fresh(app: App): App {
  const choosing = app.play?.next.want === 'point' && app.play.next.point.kind === 'choice';
  const atDesk = app.desk !== null && app.hand !== null && app.play === null;
  return { ...app, layer: null, field: '', chosen: choosing ? -1 : atDesk ? rowAt(app) : 0, scroll: 0 };
}

export const leftWords = (app: App, { ticket }: Play): Message => ({
  tone: 'plain',
  text:
    app.purpose === 'rehearse'
      ? speak(app)('The rehearsal is over; nothing was recorded.')
      : speak(app)('{ticket} is left, and can be taken up again.', { ticket }),
});

export const finishedWords = (app: App, { ticket }: Play): Message => ({
  tone: 'good',
  text:
    app.purpose === 'rehearse'
      ? speak(app)('The rehearsal is over; nothing was recorded.')
      : speak(app)('{ticket} is finished, and in the ledger.', { ticket }),
});

/** Away from the bundle: to the station, or out of the program. 1 when the bundle is left on hold. */
export function left(app: App, play: Play, message: Message | null): App {
  const away = fresh({ ...app, play: null, message });
  return app.home !== 'out' ? away : { ...away, ended: openHold(play.bundle) ? 1 : 0 };
}

export const refusal = (text: string): Message => ({ tone: 'refusal', text });

/** Whether leaving has anything to record: the bundle is open, and with this hand. */
export const hasInHand = ({ bundle }: Play, { hand }: App): boolean => bundle.work === 'open' && bundle.hand === hand;
