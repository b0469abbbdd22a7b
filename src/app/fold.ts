import { whyNotFolded } from '../bundle/folding.ts';
import type { Plain } from '../words/say.ts';
import type { App } from './app.ts';
import { why } from './speak.ts';

/** Why the step before this hand cannot be folded, as a sentence; null where it can, or where there is no step. */
export function whyUnfolded(app: App): string | null {
  const { play, hand, room } = app;
  const step = stepOf(play);
  const stays = step && hand !== null ? whyNotFolded(room, hand, step) : null;
  return stays && why(app, stays);
}

/** Whether the fold key does anything now. */
export const mayFold = (app: App): boolean => app.play?.next.want === 'point' && whyUnfolded(app) === null;

/** Whether the explanations of the step are folded away now. A hand's wish is its own, and does not reach a step that must be read. */
export const isFolded = (app: App): boolean => app.hand !== null && app.foldedBy === app.hand && mayFold(app);

/** What stands in the place of the explanations. */
export const FOLDED: Plain = 'Do all of this, then confirm each point.';

const stepOf = (play: App['play']) => (play && 'at' in play.next ? play.next.at.step : undefined);
