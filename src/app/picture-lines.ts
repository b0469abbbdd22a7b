import { aboutParts } from '../picture/about-part.ts';
import { sayPart } from '../picture/say-part.ts';
import type { App } from './app.ts';
import { pictureWords } from './picture-words.ts';
import { speak, why } from './speak.ts';
import { stepPictures } from './step-pictures.ts';

/** What the pictures of the step at hand show, in words: under each what it brings out, one sentence a line, as the drawing has it. */
export function pictureLines(app: App): readonly string[] {
  // A catalogue says of a message that it does not have what the message says itself.
  const say = speak(app) as (words: string, values: Readonly<Record<string, string | number>>) => string;
  return stepPictures(app).flatMap((picture) => {
    const { wanted, seen } = picture;
    const head = pictureWords(app, picture);
    if (seen?.is === 'unshown') return [head, `  ${why(app, seen.why)}`];
    if (seen?.is !== 'drawing') return [head];
    const about = aboutParts(seen.drawing, wanted, seen.scale);
    return [head, ...about.map((part) => `  ${sayPart(part, ({ words, values }) => say(words, values))}`)];
  });
}
