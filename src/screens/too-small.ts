import type { App } from '../app/app.ts';
import { speak } from '../app/speak.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { said } from './said.ts';

/** Below this no screen can be trusted to show the next action whole. */
const LEAST: Size = { columns: 40, rows: 12 };

export const isTooSmall = ({ columns, rows }: Size): boolean => columns < LEAST.columns || rows < LEAST.rows;

/** Says what size is needed; the screen comes back by itself when the window is made larger. */
export function tooSmall(app: App, { columns, rows }: Size): Page {
  const text = speak(app)('Too small: {now}. Make this window at least {least}. Nothing is lost.', {
    now: `${columns} × ${rows}`,
    least: `${LEAST.columns} × ${LEAST.rows}`,
  });
  return {
    header: [],
    body: wrapRow([said(text, 'bright')], Math.max(1, columns)),
    footer: [],
    focus: 0,
    width: columns,
    height: rows,
  };
}
