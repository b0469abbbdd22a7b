import type Fraction from 'fraction.js';
import type { StepId } from '../base/brand.ts';
import { leftOnBobbin } from '../bundle/bobbin.ts';
import type { Next } from '../bundle/next.ts';
import type { App } from './app.ts';
import { metresSaid } from './metres.ts';
import { speak } from './speak.ts';

/** Why a fresh bobbin goes in before this step, with both numbers, and the usual caution. */
export function bobbinWords(
  app: Pick<App, 'hand' | 'words'>,
  { takes, left, full }: Pick<Extract<Next, { readonly want: 'bobbin' }>, 'takes' | 'left' | 'full'>,
): readonly string[] {
  const say = speak(app);
  return [
    say('This step takes {takes} m from the bobbin; a run-out within it can’t be undone.', {
      takes: metresSaid(takes),
    }),
    ...(takes.gt(full)
      ? [
          say('A full bobbin holds {full} m: change it between two seams, never within one.', {
            full: metresSaid(full),
          }),
        ]
      : []),
    left === null
      ? say('Nobody has said how much is on the bobbin in the machine.')
      : say('About {left} m are left on the bobbin in the machine.', { left: metresSaid(left) }),
    bobbinCaution(app),
  ];
}

/** Wherever somebody is asked for another bobbin. */
export const bobbinCaution = (app: Pick<App, 'hand' | 'words'>): string =>
  speak(app)('Switch the motor off and take your foot off the treadle before you change it.');

/** What is asked of whoever fits a bobbin. */
export const bobbinQuestion = (app: Pick<App, 'hand' | 'words'>, full: Fraction): string =>
  speak(app)('Metres on the bobbin that is in now (enter: a full one, {full} m)', { full: metresSaid(full) });

/** What is left, and what this step takes from it, on one line; undefined where the station does not reckon with it. */
export function bobbinLine(app: Pick<App, 'hand' | 'words' | 'room' | 'play'>, step: StepId): string | undefined {
  const takes = app.play?.thread?.takes.get(step);
  if (takes === undefined) return undefined;
  const say = speak(app);
  if (takes === null) return say('Bobbin: what this step takes could not be reckoned; look at it before you sew.');
  const left = leftOnBobbin(app.room);
  return left === undefined
    ? say('Bobbin: this step takes {takes} m.', { takes: metresSaid(takes) })
    : say('Bobbin: about {left} m left; this step takes {takes} m.', {
        left: metresSaid(left),
        takes: metresSaid(takes),
      });
}
