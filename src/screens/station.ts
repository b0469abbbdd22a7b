import type { App } from '../app/app.ts';
import { signable, waiting } from '../app/lists.ts';
import { speak } from '../app/speak.ts';
import { stateWords } from '../app/words.ts';
import { columns } from '../base/columns.ts';
import { pad } from '../base/text.ts';
import type { Bundle } from '../bundle/bundle.ts';
import { currentRelease } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { leftRight, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** Who is here: a name is typed, a badge scanned, or somebody chosen from the list. */
export function signOnScreen(app: App, size: Size): Page {
  const width = textWidth(size);
  const hands = signable(app);
  const wide = Math.min(30, Math.max(0, ...hands.map(({ name }) => columns(name))));
  const body = hands.map(({ name, role }, index) =>
    chosenRow(app, index, `${pad(name, wide)}   ${speak(app)(role)}`, '', width),
  );
  const none = speak(app)('No hands are enrolled: a supervisor adds the first with `walkfoot hand add`.');
  return frame(app, size, {
    top: prompt(app, speak(app)('Who is here? Name or badge'), size),
    body: hands.length === 0 ? wrapRow([said(none)], width) : body,
    focus: app.chosen,
  });
}

/** The bundles that wait, and the field where a ticket is typed or scanned. */
export function stationScreen(app: App, size: Size): Page {
  const width = textWidth(size);
  const bundles = waiting(app);
  const wide = (of: (bundle: Bundle) => string): number =>
    Math.min(14, Math.max(0, ...bundles.map((each) => columns(of(each)))));
  const ticketWide = wide(({ ticket }) => ticket);
  const procedureWide = wide(({ procedure }) => procedure);
  const stateWide = Math.max(0, ...bundles.map((each) => columns(stateWords(app, each))));
  const body = bundles.map((bundle, index) => {
    const { ticket, procedure } = bundle;
    const title = currentRelease(app.room, procedure)?.title ?? '';
    const left = `${pad(ticket, ticketWide)}  ${pad(procedure, procedureWide)}  ${title}`;
    return chosenRow(app, index, left, pad(stateWords(app, bundle), stateWide), width);
  });
  const none = speak(app)('No bundle waits. Make a ticket with `walkfoot ticket PROCEDURE`.');
  return frame(app, size, {
    top: prompt(app, speak(app)('Scan or type a ticket'), size),
    body: bundles.length === 0 ? wrapRow([said(none)], width) : body,
    focus: app.chosen,
  });
}

function prompt(app: App, words: string, size: Size): readonly Row[] {
  const width = textWidth(size);
  const asked: Row = [said('› ', 'bright'), said(words, 'bright'), said('  ')];
  const room = width - columns(words) - 4;
  const line: Row = [...asked, ...field({ text: app.field, width: Math.max(6, Math.min(24, room)) })];
  return [line, ...gap(size)];
}

/** The list is only marked while nothing is typed: what is typed counts before what is chosen. */
function chosenRow(app: App, index: number, left: string, right: string, width: number): Row {
  const isChosen = index === app.chosen && app.field === '';
  const style = isChosen ? 'strong' : 'plain';
  return leftRight([said(isChosen ? ' › ' : '   ', 'strong'), said(left, style)], [said(right, style)], width);
}
