import type { Caution } from '../../procedure/procedure.ts';
import type { Say } from '../../words/say.ts';
import { type Html, html, nothing } from './html.ts';

/** A caution as it stands before the points it guards; `read` is where to tick that it was read. NOTICE is about material: no triangle. */
export const cautionBox = (say: Say, { word, text }: Caution, read: Html): Html => html`<div class="caution">
<div class="word">${word === 'NOTICE' ? nothing : warningSign}<b>${say(word)}</b></div>
<div class="says">${text}</div>
<div class="read">${read}</div>
</div>`;

/** The general warning sign, in the manner of W001 of ISO 7010: a triangle with an exclamation mark, drawn for black ink. */
const warningSign = html`<svg class="sign" viewBox="0 0 100 88" role="img" aria-label="!"><path d="M50 5 95 83H5Z" fill="#fff" stroke="#000" stroke-width="8" stroke-linejoin="round"/><path d="M45 30h10l-2.5 28h-5Z"/><circle cx="50" cy="69" r="5.5"/></svg>`;
