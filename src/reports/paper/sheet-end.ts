import { type Html, html } from './html.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { signatureLine } from './signature-line.ts';
import { paperWords as words } from './words.ts';

/** What closes a sheet: the count that must balance, what else is to be said, and who answers for it. */
export function sheetEnd({ procedure, ticket }: SheetMatter): Html {
  const sets = ticket?.bundle.sets ?? procedure.sets;
  return html`<section class="end">
<h2>${words.end}</h2>
<p>${words.sets} <b>${sets}</b> = ${words.good} <span class="blank"></span> + ${words.scrapped} <span class="blank"></span> <span class="limit">(${words.balance})</span></p>
<p>${words.notes}</p>
<div class="rule"></div><div class="rule"></div><div class="rule"></div>
<div class="answers">${[words.sewer, words.supervisor].map(signatureLine)}</div>
</section>`;
}
