import type { App } from '../app/app.ts';
import { chosenDraft, type DeskRow, deskRows } from '../app/desk.ts';
import { headings, rowWords } from '../app/desk-words.ts';
import { speak } from '../app/speak.ts';
import { columns } from '../base/columns.ts';
import { pad } from '../base/text.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { cutRow, fillRow, leftRight, type Row, span } from '../widgets/row.ts';
import { draftRows } from './draft.ts';
import { frame, gap } from './frame.ts';
import { said } from './said.ts';

/** From this width on the chosen draft stands beside the list. */
const BESIDE = 100;

/** A supervisor's desk: what waits, what is at work, what is written. The oldest hold is what asks to be done next. */
export function deskScreen(app: App, size: Size): Page {
  const rows = deskRows(app);
  const draft = chosenDraft(app);
  const isWide = size.columns >= BESIDE;
  const width = isWide ? Math.floor((size.columns - 5) * 0.56) : size.columns - 2;
  const named = Math.min(20, Math.max(0, ...rows.map((row) => columns(rowWords(app, row).name))));
  const body: Row[] = [];
  let focus = 0;
  for (const [index, row] of rows.entries()) {
    if (row.row !== rows[index - 1]?.row) {
      if (index > 0) body.push(...gap(size));
      body.push([said(speak(app)(headings[row.row]))]);
    }
    if (index === app.chosen) focus = body.length;
    body.push(line(app, row, { index, named, width }));
  }
  const beside = isWide && draft ? draftRows(speak(app), draft, 'findings', size.columns - 5 - width) : [];
  return frame(app, size, { body: side(body, beside, width), focus });
}

interface Place {
  readonly index: number;
  readonly named: number;
  readonly width: number;
}

function line(app: App, row: DeskRow, { index, named, width }: Place): Row {
  const { name, about, state } = rowWords(app, row);
  const isChosen = index === app.chosen;
  const first = row.row === 'hold' && index === 0;
  const style = first ? 'bright' : isChosen ? 'strong' : 'plain';
  const right = cutRow([said(state, style)], Math.floor((width * 3) / 4));
  return leftRight(
    [said(isChosen ? ' › ' : '   ', 'strong'), said(`${pad(name, named)}  ${about}`, style)],
    right,
    width,
  );
}

/** Rows of the list with those of what is chosen beside them. */
function side(left: readonly Row[], right: readonly Row[], width: number): readonly Row[] {
  if (right.length === 0) return left;
  return Array.from({ length: Math.max(left.length, right.length) }, (_, at) => [
    ...fillRow(left[at] ?? [], width),
    span(' │ '),
    ...(right[at] ?? []),
  ]);
}
