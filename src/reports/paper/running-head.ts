import { openHold } from '../../bundle/bundle.ts';
import { barPicture, qrPicture } from './code-pictures.ts';
import { type Html, html, where } from './html.ts';
import type { SheetMatter } from './sheet-matter.ts';

/** What stands on every page: whose sheet it is, on which revision, what bars it from being used, and the ticket's codes. */
export function runningHead(matter: SheetMatter): Html {
  const { say, procedure, text, ticket } = matter;
  const code = ticket?.bundle.ticket;
  return html`<div class="head">
<div class="whose">
<div class="name">${code ?? procedure.id}${marksOf(matter).map((mark) => html` <b class="mark">${mark}</b>`)}</div>
<div class="title">${where(code && procedure.id, (id) => html`${id} · `)}${procedure.title}</div>
<div>${where(text.release, ({ revision }) => html`${say('revision')} ${revision} · `)}${say('text')} ${(text.sheet ?? text.digest).slice(0, 12)}…${where(code === undefined, () => html` · ${say('blank form')}`)}</div>
</div>
${where(code, (said) => html`<div class="codes">${barPicture(said, 72, 11)}${qrPicture(said, 22)}</div>`)}
</div>`;
}

function marksOf({ say, text, ticket }: SheetMatter): readonly string[] {
  return [
    ...(ticket && ticket.copy > 0 ? [say('COPY {number}', { number: ticket.copy })] : []),
    ...(ticket && openHold(ticket.bundle) ? [say('ON HOLD')] : []),
    ...(text.release === null ? [say('DRAFT, not released')] : []),
    ...(text.release?.withdrawn ? [say('WITHDRAWN')] : []),
  ];
}
