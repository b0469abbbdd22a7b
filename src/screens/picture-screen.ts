import type { App } from '../app/app.ts';
import { pictureWords } from '../app/picture-words.ts';
import { speak } from '../app/speak.ts';
import { pictureAt, picturesAtHand } from '../app/step-pictures.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, textWidth } from './frame.ts';
import { pictureAlone } from './picture-beside.ts';
import { said } from './said.ts';

/** The pictures of the step at hand on the whole screen, one at a time; null when it has none. */
export function pictureScreen(app: App, size: Size): Page | null {
  const picture = pictureAt(app);
  if (!picture) return null;
  const count = picturesAtHand(app.play).length;
  const place = count > 1 ? ` · ${speak(app)('{place} of {places}', { place: app.chosen + 1, places: count })}` : '';
  return {
    ...frame(app, size, {
      top: wrapRow([said(`${pictureWords(app, picture)}${place}`)], textWidth(size), 2),
      body: [],
    }),
    beside: pictureAlone(app, picture),
  };
}
