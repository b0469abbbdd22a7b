import type { App } from '../app/app.ts';
import { speak, why } from '../app/speak.ts';
import { pictureAt, type StepPicture } from '../app/step-pictures.ts';
import { assertNever } from '../base/assert-never.ts';
import { remember } from '../base/remember.ts';
import type { Tone } from '../picture/dots.ts';
import { drawInCharacters } from '../picture/draw-in-characters.ts';
import { photoInCharacters } from '../picture/photo-in-characters.ts';
import { pictureKey } from '../picture/picture-key.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Beside, Room } from '../widgets/page.ts';
import { type Row, type Style, span } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { said } from './said.ts';

/** From this width on the picture of a step stands beside its words. */
const WIDE = 100;

/** Of more columns the words keep half, but are never longer than they can well be read. */
const WORDS = { least: 58, most: 78 };

/** The picture of the step at hand beside the words, on a screen that has room for both; words alone have all of it. */
export function pictureBeside(app: App, { columns }: Size): Beside | undefined {
  const picture = columns < WIDE ? undefined : pictureAt(app);
  if (!picture?.seen || picture.seen.is === 'unshown') return undefined;
  return { from: wordsBeside(columns) + GAP, draw: (room) => rowsOf(app, picture, room) };
}

/** Columns that the words have beside a picture. */
export const wordsBeside = (columns: number): number =>
  Math.min(WORDS.most, Math.max(WORDS.least, Math.floor(columns / 2)));

/** The edge of the screen, and what parts words and picture. */
const GAP = 3;

/** The picture with nothing beside it. */
export const pictureAlone = (app: App, picture: StepPicture): Beside => ({
  from: 1,
  draw: (room) => rowsOf(app, picture, room),
});

function rowsOf(app: App, { seen, wanted }: StepPicture, room: Room): readonly Row[] {
  // The last column stays free, as everywhere.
  const area = { columns: Math.max(1, room.columns - 1), rows: room.rows };
  switch (seen?.is) {
    case undefined:
      return [[said(speak(app)('The picture is being read.'), 'dim')]];
    case 'unshown':
      return wrapRow([said(why(app, seen.why))], area.columns, area.rows);
    case 'drawing':
      return drawn(pictureKey(seen, area, wanted), () =>
        drawInCharacters(seen.drawing, area, wanted).map((row) => row.map(({ text, tone }) => span(text, TONES[tone]))),
      );
    case 'photograph':
      return drawn(pictureKey(seen, area, wanted), () =>
        photoInCharacters(seen.greys, area).map((row) =>
          row.map(({ text, greys }) => (greys ? { text, greys } : span(text))),
        ),
      );
    default:
      return assertNever(seen);
  }
}

/** A screen is drawn with every key, its picture only when it is another one. */
const drawn = remember<readonly Row[]>(20);

const TONES: Readonly<Record<Tone, Style>> = { bright: 'bright', plain: 'plain', faint: 'dim' };
