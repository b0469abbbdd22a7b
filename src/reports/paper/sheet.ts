import { html } from './html.ts';
import { page } from './page.ts';
import { runningHead } from './running-head.ts';
import { sheetEnd } from './sheet-end.ts';
import { sheetFront } from './sheet-front.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { sheetStep } from './sheet-step.ts';
import { sheetStyle } from './sheet-style.ts';

/**
 * A procedure as a form for a browser to print, for the day on which the computer is down: every point with a place for its answer. For a
 * ticket it goes on where the bundle stands. The head of a table is what browsers repeat on every page.
 */
export function sheet(matter: SheetMatter): string {
  const { procedure, ticket, paper, language, say } = matter;
  const name = ticket ? ticket.bundle.ticket : procedure.id;
  const body = html`<table class="sheet">
<thead><tr><td>${runningHead(matter)}</td></tr></thead>
<tbody><tr><td>
${sheetFront(matter)}
${procedure.steps.map((step) => sheetStep(step, matter))}
${sheetEnd(matter)}
</td></tr></tbody>
</table>`;
  return page(`${name} ${procedure.title}`, sheetStyle(paper, say), body, language);
}
