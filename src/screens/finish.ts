import type { App, Play } from '../app/app.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, type Row, span } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';

/** Every point is done; the sets are counted once more before the bundle is closed. */
export function finish(app: App, { bundle }: Play, size: Size): Page {
  const width = textWidth(size);
  const { scrapped, sets } = bundle;
  const asked = wrapRow([span(' › ', 'bright'), span('Count the good sets you tie up', 'bright')], width, 3);
  const blankRow: Row = [span('   '), ...field({ text: app.field, width: 6, unit: `of ${sets}` })];
  return frame(app, size, {
    top: [...wrapRow([span('Every point is done', 'strong')], width), ...gap(size)],
    body: [
      ...asked,
      blankRow,
      ...(scrapped.size > 0 ? [blank, ...wrapRow([span(`${scrapped.size} scrapped.`)], width)] : []),
    ],
    focusRows: asked.length + 1,
  });
}
