import { type Html, html } from './html.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { signatureLine } from './signature-line.ts';

/** What closes a sheet: the count that must balance, what else is to be said, and who answers for it. */
export function sheetEnd({ say, procedure, ticket }: SheetMatter): Html {
  const sets = ticket?.bundle.sets ?? procedure.sets;
  return html`<section class="end">
<h2>${say('When all points are done')}</h2>
<p>${say('Sets in the bundle')} <b>${sets}</b> = ${say('good')} <span class="blank"></span> + ${say('scrapped')} <span class="blank"></span> <span class="limit">(${say('good and scrapped together are the sets of the bundle')})</span></p>
<p>${say('Notes')}</p>
<div class="rule"></div><div class="rule"></div><div class="rule"></div>
<div class="answers">${[say('sewer'), say('supervisor')].map((who) => signatureLine(say, who))}</div>
</section>`;
}
