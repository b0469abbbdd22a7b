import type { App, Play } from '../app/app.ts';
import { speak } from '../app/speak.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** Every point is done; the sets are counted once more before the bundle is closed. */
export function finish(app: App, { bundle }: Play, size: Size): Page {
  const width = textWidth(size);
  const { scrapped, sets } = bundle;
  const say = speak(app);
  const asked = wrapRow([said(' › ', 'bright'), said(say('Count the good sets you tie up'), 'bright')], width, 3);
  const blankRow: Row = [said('   '), ...field({ text: app.field, width: 6, unit: say('of {sets}', { sets }) })];
  return frame(app, size, {
    top: [...wrapRow([said(say('Every point is done'))], width), ...gap(size)],
    body: [
      ...asked,
      blankRow,
      ...(scrapped.size > 0
        ? [blank, ...wrapRow([said(say('{count} scrapped.', { count: scrapped.size }))], width)]
        : []),
    ],
    focusRows: asked.length + 1,
  });
}
