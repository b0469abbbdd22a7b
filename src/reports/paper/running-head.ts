import { barPicture, qrPicture } from './code-pictures.ts';
import { html, nothing, where } from './html.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { paperWords as words } from './words.ts';

/** What stands on every page: whose sheet it is, on which revision, and the ticket's codes. */
export function runningHead({ procedure, text, ticket }: SheetMatter) {
  const code = ticket?.bundle.ticket;
  return html`<div class="head">
<div class="whose">
<div class="name">${code ?? procedure.id}${where(ticket && ticket.copy > 0 && ticket.copy, (copy) => html` <b class="mark">${words.copy(copy)}</b>`)}${text.release === null ? html` <b class="mark">${words.draft}</b>` : nothing}</div>
<div class="title">${where(code && procedure.id, (id) => html`${id} · `)}${procedure.title}</div>
<div>${where(text.release, ({ revision }) => html`${words.revision} ${revision} · `)}${words.digest} ${text.digest.slice(0, 12)}…${code === undefined ? html` · ${words.form}` : nothing}</div>
</div>
${where(code, (said) => html`<div class="codes">${barPicture(said, 72, 11)}${qrPicture(said, 22)}</div>`)}
</div>`;
}
