import { allChecks, type Bundle, type Check, openHold } from '../bundle/bundle.ts';
import type { Hand } from '../bundle/room.ts';
import type { App } from './app.ts';
import { deskRows } from './desk.ts';
import { question } from './form.ts';
import type { Mode } from './move.ts';
import { picturesAtHand } from './step-pictures.ts';

/** Those who may sign on, in the order of their enrolment. */
export const signable = ({ room }: App): readonly Hand[] => [...room.hands.values()].filter((hand) => !hand.retired);

/** Bundles that wait at the station: this hand's first, then those on the way, on hold, and not yet opened. */
export function waiting({ bundles, hand }: App): readonly Bundle[] {
  const rank = (bundle: Bundle): number =>
    openHold(bundle) ? 2 : bundle.work === 'not opened' ? 3 : bundle.hand === hand ? 0 : 1;
  return bundles
    .filter(({ work }) => work !== 'finished')
    .sort((a, b) => rank(a) - rank(b) || a.ticket.localeCompare(b.ticket));
}

/** What was recorded, newest first, for looking back. */
export const lookedBack = (app: App): readonly Check[] => (app.play ? [...allChecks(app.play.bundle)].reverse() : []);

/** How many rows there are to choose from, in the modes that have a list. */
export const lists: Partial<Record<Mode, (app: App) => number>> = {
  'sign on': (app) => signable(app).length,
  station: (app) => waiting(app).length,
  desk: (app) => deskRows(app).length,
  choice: (app) =>
    app.play?.next.want === 'point' && app.play.next.point.kind === 'choice' ? app.play.next.point.options.length : 0,
  'look back': (app) => lookedBack(app).length,
  picture: ({ play }) => picturesAtHand(play).length,
  'form choice': (app) => (app.layer?.layer === 'form' ? (question(app, app.layer.form)?.options?.length ?? 0) : 0),
};
