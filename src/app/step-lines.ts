import { oneLine } from '../base/text.ts';
import type { Place } from '../bundle/route.ts';
import type { App, Play } from './app.ts';
import { bobbinLine } from './bobbin-words.ts';
import { FOLDED, isFolded } from './fold.ts';
import { pictureLines } from './picture-lines.ts';
import { proseLines } from './prose-lines.ts';
import { seamsSaid } from './seam-words.ts';
import { speak } from './speak.ts';
import { setWords } from './words.ts';

/**
 * The step's head and words, when it has just been come to; none where it is the one that is `known`. Folded, all its points stand in
 * the place of its explanations.
 */
export function stepLines(app: App, play: Play, at: Place, known: Play | null): readonly string[] {
  if (known && 'at' in known.next && known.next.at.step.id === at.step.id && known.next.at.set === at.set) return [];
  const { step } = at;
  const { facts } = step;
  const say = speak(app);
  const head = `${step.number} ${step.title} (${setWords(speak(app), at, play.bundle.sets)})${facts.cannotBeUndone ? `, ${speak(app)('cannot be undone')}` : ''}`;
  const seams = facts.seams ? [seamsSaid(say, facts.seams)] : [];
  const bobbin = bobbinLine(app, step.id);
  const words = isFolded(app)
    ? [speak(app)(FOLDED), ...step.points.map(({ text }) => `  - ${text}`)]
    : proseLines(step.prose);
  return ['', head, ...words, ...seams, ...(bobbin ? [bobbin] : []), ...pictureLines(app)].map(oneLine);
}
