import { wallTime } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import { notOnHold } from '../bundle/barred.ts';
import { allChecks, openHold } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import type { App, Play } from './app.ts';
import type { News } from './effect.ts';
import { isFolded, mayFold, whyUnfolded } from './fold.ts';
import { pictureLines } from './picture-lines.ts';
import { checkSigned } from './signed-words.ts';
import { speak } from './speak.ts';
import { answerWords, placeOf } from './words.ts';

/** What a line comes to: news for the program, or lines to print at once. */
export type Heard = { readonly news: News } | { readonly print: readonly string[] };

/** The order that a line is, in words that are the same in every language; undefined where it is an answer. */
export function orderIn(app: App, words: string): Heard | undefined {
  if (!app.play) return undefined;
  if (/^(?:fold|unfold)$/i.test(words)) return folding(app, words.toLowerCase());
  const [, name = '', rest = ''] =
    /^(back|hold|settle|undo|strike|note|hands over|go back|bobbin|picture)(?:\s+(.*))?$/i.exec(words) ?? [];
  const text = rest.trim();
  switch (name.toLowerCase()) {
    case 'back':
      return text === '' ? { print: lookedBack(app, app.play) } : undefined;
    case 'picture':
      return text === '' ? { print: pictures(app) } : undefined;
    case 'undo':
      return text !== '' ? undefined : { news: { news: 'intent', intent: { intent: 'undo' } } };
    case 'settle':
      return text === '' ? settling(app.play) : undefined;
    case 'hold':
      return text === '' ? form('hold') : { news: { news: 'intent', intent: { intent: 'hold', reason: text } } };
    case 'note':
      return text === '' ? form('note') : { news: { news: 'intent', intent: { intent: 'note', text } } };
    case 'go back':
      return text === '' ? form('go back') : { news: { news: 'intent', intent: { intent: 'go back', reason: text } } };
    case 'bobbin':
      return { news: { news: 'intent', intent: { intent: 'bobbin', metres: text } } };
    case 'hands over':
      return text === '' ? form('hand over') : { news: { news: 'intent', intent: { intent: 'hand over', to: text } } };
    case 'strike': {
      const [, entry, reason] = /^#(\d+)\s*(.*)$/.exec(text) ?? [undefined, undefined, text];
      const which = entry === undefined ? {} : { entry: Number(entry) };
      return reason
        ? { news: { news: 'intent', intent: { intent: 'strike', ...which, reason } } }
        : { news: { news: 'form', form: { about: 'strike', ...which, answers: {} } } };
    }
    default:
      return undefined;
  }
}

/** Whether there is anything to settle is said before the first question, not behind the last one. */
function settling({ bundle, ticket }: Play): Heard {
  if (openHold(bundle)) return { news: { news: 'form', form: { about: 'settle', answers: {} } } };
  return { news: { news: 'refused', refusal: notOnHold(ticket).error } };
}

/** Each word does what it says, however often; where it is refused, the sentence is that of the key. */
function folding(app: App, word: string): Heard {
  const say = speak(app);
  if (!mayFold(app) && whyUnfolded(app) === null) return { print: [say('There is no step before you: go on first.')] };
  if (mayFold(app) && isFolded(app) === (word === 'fold'))
    return { print: [say(word === 'fold' ? 'It is folded already.' : 'Nothing is folded here.')] };
  if (!mayFold(app) && word === 'unfold') return { print: [say('Nothing is folded here.')] };
  return { news: { news: 'move', move: { move: 'order', order: 'fold' } } };
}

const form = (about: 'hold' | 'note' | 'go back' | 'hand over'): Heard => ({
  news: { news: 'form', form: { about, answers: {} } },
});

/** The pictures of the step at hand as they were said when it began: nobody remembers five lengths. */
function pictures(app: App): readonly string[] {
  const lines = pictureLines(app);
  return lines.length > 0 ? lines.map(oneLine) : [speak(app)('This step has no picture.')];
}

function lookedBack(app: App, play: Play): readonly string[] {
  const say = speak(app);
  const checks = allChecks(play.bundle);
  if (checks.length === 0) return [say('Nothing is recorded yet.')];
  return checks.map((check) => {
    const step = play.procedure.steps.find(({ id }) => id === check.step);
    const point = step?.points.find(({ id }) => id === check.point);
    const gone = check.struck
      ? `, ${say('struck: {reason}', { reason: check.struck.reason })}`
      : check.again
        ? `, ${say('asked again')}`
        : '';
    return oneLine(
      `  #${check.seq} ${wallTime(check.at)} ${nameOf(app.room, check.hand)}, ${placeOf(say, check, step?.number)}, ${point?.text ?? check.point}: ${answerWords(say, check)}${check.witness === undefined ? '' : `, ${checkSigned(say, app.room, check)}`}${gone}`,
    );
  });
}
