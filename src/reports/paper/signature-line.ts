import { type Html, html } from './html.ts';
import { paperWords as words } from './words.ts';

/** Where somebody signs, with who that is below the line. */
export const signatureLine = (who: string): Html => html`<span class="signature">${words.signs(who)}</span>`;
