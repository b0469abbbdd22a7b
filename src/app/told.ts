import { oneLine } from '../base/text.ts';
import { allChecks, type Check, isGoodVerdict } from '../bundle/bundle.ts';
import type { Point } from '../procedure/procedure.ts';
import type { Plain, Say } from '../words/say.ts';
import type { App, Play } from './app.ts';
import { bundleSigned } from './signed-words.ts';
import { speak } from './speak.ts';
import { byHowMuch, headline, valueWords } from './words.ts';

/** What became of the line before: what was recorded, or why not. */
export function told(app: App, before: App): readonly string[] {
  const lines: string[] = [];
  const say = speak(app);
  const old = before.play?.bundle.lastSeq ?? -1;
  if (app.play && before.play) {
    for (const check of allChecks(app.play.bundle))
      if (check.seq > old) lines.push(...checkLines(say, app.play, check));
    const { finished } = app.play.bundle;
    if (finished && !before.play.bundle.finished) {
      const { good, scrapped, conceded, sets } = finished;
      lines.push(
        `${conceded ? say('Finished: {good} of {sets} good, {conceded} of them by concession, {scrapped} scrapped.', { good, sets, conceded, scrapped }) : say('Finished: {good} of {sets} good, {scrapped} scrapped.', { good, sets, scrapped })} ${say(app.purpose === 'rehearse' ? 'It was a rehearsal: nothing is recorded.' : 'It is in the ledger.')}`,
        ...bundleSigned(say, app.room, app.play.bundle, app.play.procedure).map((text) => `  ${text}`),
      );
    }
  }
  if (app.message) lines.push(app.message.text);
  const kept = before.lock?.kept ?? '';
  if (!app.lock && kept !== '' && app.hand === before.hand)
    lines.push(
      say('Before the station locked you had typed {kept}: type it again if it still holds.', { kept: `“${kept}”` }),
    );
  return lines.map(oneLine);
}

function checkLines(say: Say, play: Play, check: Check): readonly string[] {
  if (isGoodVerdict(check.verdict)) return check.value === 'done' ? [] : [`  ✓ ${valueWords(check)}`];
  const step = play.procedure.steps.find(({ id }) => id === check.step);
  const point = step?.points.find(({ id }) => id === check.point);
  const ifOut = step?.facts.ifOut;
  const ways = [say(wayOn(point)), ...(ifOut?.backTo ? ['go back REASON'] : []), 'hold REASON'];
  return [
    `  ${headline(say, check)}: ${byHowMuch(say, check, point)}.`,
    ...(ifOut ? [`  ${say('If out: {text}.', { text: ifOut.text })}`] : []),
    `  ${ways.join(`, ${say('or')} `)}`,
  ];
}

function wayOn(point: Point | undefined): Plain {
  switch (point?.kind) {
    case 'choice':
      return 'look again and choose';
    case 'timed':
      return 'time it again';
    case 'computed':
      return 'strike a reading it came from';
    default:
      return 'measure again';
  }
}
