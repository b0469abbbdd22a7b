import type { App } from './app.ts';
import { speak } from './speak.ts';
import type { StepPicture } from './step-pictures.ts';

/** What a picture is of, and what it brings out by name. */
export function pictureWords(app: App, { alt, wanted }: StepPicture): string {
  const ids = wanted.broughtOut.join(', ');
  return ids === ''
    ? speak(app)('Picture: {alt}', { alt })
    : speak(app)('Picture: {alt} (brings out {ids})', { alt, ids });
}
