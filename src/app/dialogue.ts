import { assertNever } from '../base/assert-never.ts';
import type { Instant, OffsetAt } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import { pointKey } from '../bundle/bundle.ts';
import { elapsedSeconds } from '../bundle/elapsed.ts';
import { progress, type WantedPoint } from '../bundle/next.ts';
import { nameOf } from '../bundle/room.ts';
import type { Point } from '../procedure/procedure.ts';
import type { Say } from '../words/say.ts';
import type { App, Play } from './app.ts';
import { bobbinQuestion, bobbinWords } from './bobbin-words.ts';
import { dialogueHelp } from './dialogue-help.ts';
import { type Heard, orderIn } from './dialogue-orders.ts';
import { changesOf, differenceLine } from './difference-words.ts';
import { isFolded } from './fold.ts';
import { question as formQuestion } from './form.ts';
import { helpWords } from './help-words.ts';
import { waiting } from './lists.ts';
import { isLockDue, lockWords } from './lock.ts';
import { paperStamp } from './paper-time.ts';
import { pinQuestion } from './pin-ask.ts';
import { proseLines } from './prose-lines.ts';
import { speak } from './speak.ts';
import { stepLines } from './step-lines.ts';
import { limitSaid, setCount, stateWords } from './words.ts';

/** What one line of text means at this moment. An empty line is done, read or next; anything that is no order is the answer. */
export function heard(app: App, line: string, { now, offsetAt }: Moment = momentOf(app)): Heard {
  const words = line.trim();
  if (isLockDue(app, now)) return { news: { news: 'lock', kept: words } };
  if (app.pin)
    return words.toLowerCase() === 'never mind'
      ? { news: { news: 'move', move: { move: 'escape' } } }
      : { news: { news: 'pin', text: words } };
  if (app.lock)
    return words.toLowerCase() === 'leave'
      ? { news: { news: 'move', move: { move: 'order', order: 'quit' } } }
      : { news: { news: 'sign on', who: words } };
  const literal = /^"(.*)"$/.exec(words)?.[1];
  if (literal !== undefined)
    return app.layer?.layer === 'form' ? { news: { news: 'form answer', text: literal } } : answer(app, literal);
  if (words === '?') return { print: dialogueHelp(app) };
  if (words.toLowerCase() === 'leave') return { news: { news: 'move', move: { move: 'order', order: 'leave' } } };
  if (app.layer?.layer === 'form') {
    return words.toLowerCase() === 'never mind'
      ? { news: { news: 'move', move: { move: 'escape' } } }
      : { news: { news: 'form answer', text: words } };
  }
  if (app.paper && words.startsWith('@'))
    return { news: { news: 'paper time', stamp: paperStamp(words.slice(1), app.paper.doneAt, offsetAt) } };
  // A blank on the paper is not done, whatever stands below it.
  if (app.paper && words === '-') return { news: { news: 'move', move: { move: 'order', order: 'leave' } } };
  return orderIn(app, words) ?? answer(app, words);
}

/** When a line is heard, and the room's offset from UTC at a time on its clock. */
interface Moment {
  readonly now: Instant;
  readonly offsetAt: OffsetAt;
}

const momentOf = ({ now }: App): Moment => ({ now, offsetAt: () => now.offset });

/** The lines that lead up to the question, and the question itself, which ends with `> `. */
export function asked(app: App, before: App | null): Asked {
  const { lines, prompt } = question(app, before);
  return { lines: lines.map(oneLine), prompt: oneLine(prompt) };
}

interface Asked {
  readonly lines: readonly string[];
  readonly prompt: string;
}

function question(app: App, before: App | null): Asked {
  const { play } = app;
  const say = speak(app);
  if (app.pin) {
    const { says, asks } = pinQuestion(app, app.pin);
    return { lines: app.pin.stage.is === 'again' ? [] : [says], prompt: `${asks} > ` };
  }
  if (app.lock)
    return {
      lines: [`${say('LOCKED')}. ${lockWords(app)} ${say('Nothing is lost: it goes on where it stood.')}`],
      prompt: whoIsHere(app),
    };
  if (app.layer?.layer === 'form') {
    const next = formQuestion(app, app.layer.form);
    const options = next?.options?.map(({ words }, index) => `  ${index + 1} ${words}`) ?? [];
    const usual = next?.options?.find(({ is }) => is === next.usual)?.words ?? next?.usual;
    return { lines: options, prompt: `${next?.words ?? ''}${usual ? ` [${usual}]` : ''} > ` };
  }
  if (!play) return app.hand === null ? signOnQuestion(app) : stationQuestion(app);
  const known = before?.play?.ticket === play.ticket ? before.play : null;
  // What was folded or unfolded is told anew.
  const told = before && isFolded(before) === isFolded(app) ? known : null;
  const { lines, prompt } = nextQuestion(app, play, told);
  const stands = app.paper ? `${progressWords(play)} ` : '';
  return { lines: known ? lines : [...heading(app, play), ...lines], prompt: `${stands}${prompt} > ` };
}

/** How much of the paper is typed in. */
function progressWords({ procedure, bundle }: Play): string {
  const { done, of } = progress(procedure, bundle);
  return `[${done}/${of}]`;
}

function answer(app: App, text: string): Heard {
  if (app.play?.next.want === 'nothing') return { news: { news: 'move', move: { move: 'enter' } } };
  if (app.play) return { news: { news: 'intent', intent: { intent: 'answer', text } } };
  if (app.hand === null) return { news: { news: 'sign on', who: text } };
  return { news: { news: 'ticket', ticket: text } };
}

function signOnQuestion(app: App): Asked {
  const { roomName, station } = app;
  return { lines: [speak(app)('{room}, station {station}', { room: roomName, station })], prompt: whoIsHere(app) };
}

const whoIsHere = (app: App): string => `${speak(app)('Who is here? Name or badge')} > `;

function stationQuestion(app: App): Asked {
  const lines = waiting(app).map((bundle) => `  ${bundle.ticket}  ${bundle.procedure}  ${stateWords(app, bundle)}`);
  return { lines: lines.map(oneLine), prompt: `${speak(app)('Ticket')} > ` };
}

function heading(app: App, { bundle, procedure }: Play): readonly string[] {
  const { purpose } = app;
  const say = speak(app);
  const revision =
    bundle.text && purpose === 'record' ? `, ${say('rev {revision}', { revision: bundle.text.revision })}` : '';
  const lines = [`${bundle.ticket}: ${procedure.id}${revision}, ${procedure.title}, ${setCount(say, bundle.sets)}`];
  const rolls =
    bundle.rolls.length > 0 ? [say('Rolls on the ticket: {rolls}', { rolls: bundle.rolls.join(', ') })] : [];
  const all = [...lines, ...rolls, ...proseLines(procedure.intro)];
  return purpose === 'rehearse'
    ? [say('REHEARSAL: nothing is recorded.'), ...all]
    : [...all, say('? tells what you can type.')];
}

function nextQuestion(app: App, play: Play, known: Play | null): Asked {
  const { next } = play;
  const say = speak(app);
  switch (next.want) {
    case 'opening':
      return { lines: [], prompt: say('Not begun (enter: begin)') };
    case 'resuming':
      return {
        lines: [],
        prompt: say('{state} (enter: take it up)', { state: stateWords(app, play.bundle) }),
      };
    case 'settling': {
      const { name, reason, by } = next.hold;
      const lines = [
        say('ON HOLD {name}, by {by}: {reason}', { name, by: nameOf(app.room, by), reason }),
        say('A supervisor settles it (settle), or leave it here (leave).'),
      ];
      return { lines: lines.map(oneLine), prompt: say('On hold') };
    }
    case 'changes':
      return {
        lines: changeLines(say, play, next),
        prompt: say('Change (enter: read)'),
      };
    case 'helping':
      return {
        lines: [...stepLines(app, play, next.at, known), helpWords(app, next)],
        prompt: say('Who stands by? Name or badge'),
      };
    case 'bobbin':
      return {
        lines: [...stepLines(app, play, next.at, known), ...bobbinWords(app, next)],
        prompt: bobbinQuestion(app, next.full),
      };
    case 'caution': {
      const of = next.of > 1 ? ` (${say('{place} of {places}', { place: next.number, places: next.of })})` : '';
      const lines = [
        ...stepLines(app, play, next.at, known),
        oneLine(`${say(next.caution.word)}${of}: ${next.caution.text}`),
      ];
      return { lines, prompt: say('{word} (enter: read)', { word: say(next.caution.word) }) };
    }
    case 'point':
      return { lines: stepLines(app, play, next.at, known), prompt: oneLine(pointPrompt(app, play, next)) };
    case 'finish':
      return { lines: [say('Every point is done.')], prompt: say('How many good sets do you tie up?') };
    case 'nothing':
      return { lines: [], prompt: say('Finished (enter: leave)') };
    default:
      return assertNever(next);
  }
}

function pointPrompt(app: App, play: Play, { point, place, clock, at }: WantedPoint): string {
  const limit = 'limit' in point && point.limit ? `, ${limitSaid(speak(app), point.limit)}` : '';
  const which =
    'places' in point && point.places > 1
      ? `, ${speak(app)('place {place} of {places}', { place, places: point.places })}`
      : '';
  return `${point.text}${which}${limit} ${manner(app, play, point, clock !== null, at)}`.trimEnd();
}

function manner(app: App, play: Play, point: Point, running: boolean, at: WantedPoint['at']): string {
  const say = speak(app);
  switch (point.kind) {
    case 'tick':
      return say('(enter: done)');
    case 'reading':
    case 'count':
      return point.limit === null ? `(${point.unit})` : '';
    case 'written':
      return say('(write)');
    case 'choice':
      return `(${point.options.map(({ text }, index) => `${index + 1} ${text}`).join(', ')})`;
    case 'computed':
      return say('(worked out; enter: record)');
    case 'hold point':
      return say(
        app.paper
          ? '(hold point: who looked, as signed on the paper)'
          : '(hold point: a supervisor looks and signs; name or badge)',
      );
    case 'timed': {
      if (app.paper) return say('({unit}, as written)', { unit: point.unit });
      if (!running) return say('(enter: start the clock)');
      const key = play.bundle.clocks.get(pointKey(at.set, at.step.id, point.id));
      const seconds = key ? elapsedSeconds(key, play.bundle.lastAt, app.now) : 0;
      return say('(the clock runs, {minutes} min {seconds} s; enter: stop)', {
        minutes: Math.floor(seconds / 60),
        seconds: seconds % 60,
      });
    }
    default:
      return assertNever(point);
  }
}

function changeLines(
  say: Say,
  play: Play,
  next: Extract<Play['next'], { readonly want: 'changes' }>,
): readonly string[] {
  const { difference, of } = changesOf(play, next);
  const said = difference
    ? differenceLine(difference, say)
    : say('The file is another one, but nothing in it that you are shown.');
  return [oneLine(`${say('Changed since you sewed it last: {number} of {of}', { number: next.number, of })}: ${said}`)];
}
