import type { Say } from '../../words/say.ts';
import { type Html, html } from './html.ts';

/** Where somebody signs, with who that is below the line. */
export const signatureLine = (say: Say, who: string): Html =>
  html`<span class="signature">${say('{who}, signature, time', { who })}</span>`;
