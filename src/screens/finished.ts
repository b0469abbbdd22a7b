import type { App, Play } from '../app/app.ts';
import { bundleSigned, settledWays } from '../app/signed-words.ts';
import { speak } from '../app/speak.ts';
import { lasted, when } from '../app/when.ts';
import { byHowMuch, placeOf, setCount, valueWords } from '../app/words.ts';
import { parseStamp } from '../base/instant.ts';
import { allChecks, type Bundle, type Check, isGood } from '../bundle/bundle.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { frame, gap, textWidth } from './frame.ts';
import { pointWords } from './point-list.ts';
import { said } from './said.ts';

/** The end of a bundle: what came of it, how long it took, and what became of every reading that was outside. */
export function finished(app: App, play: Play, size: Size): Page {
  const width = textWidth(size);
  const { bundle } = play;
  const stories = allChecks(bundle).filter((check) => !isGood(check));
  const say = speak(app);
  const rows = (text: string): readonly Row[] => wrapRow([said(text)], width);
  return frame(app, size, {
    top: [...wrapRow([said(say('{ticket} is finished', { ticket: play.ticket }), 'bright')], width), ...gap(size)],
    body: [
      ...rows(counts(say, bundle)),
      ...rows(time(app, bundle)),
      blank,
      ...rows(say(stories.length === 0 ? 'No reading was outside its limit.' : 'Outside, and what became of it:')),
      ...stories.flatMap((check) => story(say, play, check, width)),
      blank,
      ...rows(say('Signed:')),
      ...bundleSigned(say, app.room, bundle, play.procedure).flatMap((text) =>
        wrapRow([said(text)], Math.max(1, width - 2), 2).map((row) => indentRow(row, 2)),
      ),
      blank,
      ...rows(say(app.purpose === 'rehearse' ? 'It was a rehearsal: nothing is recorded.' : 'It is in the ledger.')),
    ],
  });
}

function counts(say: Say, { finished: end, sets }: Bundle): string {
  if (!end) return `${setCount(say, sets)}.`;
  const parts = [
    say('{good} good of {sets}', { good: end.good, sets: end.sets }),
    ...(end.conceded > 0 ? [say('{count} of them by concession', { count: end.conceded })] : []),
    ...(end.scrapped > 0 ? [say('{count} scrapped', { count: end.scrapped })] : []),
  ];
  return `${parts.join(', ')}.`;
}

function time(app: App, { openedAt, lastAt }: Bundle): string {
  const { now } = app;
  const say = speak(app);
  const from = openedAt === null ? undefined : parseStamp(openedAt);
  const to = parseStamp(lastAt);
  if (openedAt === null || !from || !to) return '';
  const long = to.ms - from.ms < 60_000 ? say('under a minute') : lasted(say, to.ms - from.ms);
  return say('Begun {from}, finished {to}: {long}.', {
    from: when(say, openedAt, now),
    to: when(say, lastAt, now),
    long,
  });
}

function story(say: Say, { procedure, bundle }: Play, check: Check, width: number): readonly Row[] {
  const step = procedure.steps.find(({ id }) => id === check.step);
  const point = step?.points.find(({ id }) => id === check.point);
  const where = placeOf(say, check, step?.number);
  const what = point ? `${pointWords(say, point)}: ${byHowMuch(say, check, point)}` : check.value;
  return [
    blank,
    ...wrapRow([said(`${where} · ${what}.`)], width),
    ...wrapRow([said(`→ ${became(say, bundle, check)}.`)], Math.max(1, width - 2), 2).map((row) => indentRow(row, 2)),
  ];
}

/** The first thing that happened to the value afterwards. */
function became(say: Say, bundle: Bundle, check: Check): string {
  if (check.struck) return say('struck: {reason}', { reason: check.struck.reason });
  const later = allChecks(bundle).find(
    ({ seq, set, step, point, place }) =>
      seq > check.seq && set === check.set && step === check.step && point === check.point && place === check.place,
  );
  const held = bundle.holds.find(
    ({ set, step, point }) => set === check.set && step === check.step && point === check.point,
  );
  const parts = [
    ...(held ? [say('held as {name}', { name: held.name })] : []),
    ...(held?.settled ? [`${say('settled')}: ${say(settledWays[held.settled.how.as])}`] : []),
    ...(later ? [say('done again: {value}', { value: valueWords(later) })] : []),
  ];
  return parts.join('; ') || say(check.again ? 'sent back' : 'left as it is');
}
