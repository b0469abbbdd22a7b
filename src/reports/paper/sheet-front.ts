import { signedWords } from '../../app/signed-words.ts';
import { dayAndTime } from '../../app/when.ts';
import { type Bundle, openHold } from '../../bundle/bundle.ts';
import { nameOf, type Room } from '../../bundle/room.ts';
import type { KitPiece } from '../../procedure/procedure.ts';
import { inEnglish } from '../../words/say.ts';
import { type Html, html, nothing, where } from './html.ts';
import { prose } from './prose.ts';
import type { OnTicket, SheetMatter } from './sheet-matter.ts';
import { paperWords as words } from './words.ts';

/** What is read before the first step: what it is about, the kit to count, and how the sheet is filled in. */
export function sheetFront({ procedure, text, ticket, room, at }: SheetMatter): Html {
  const sets = ticket?.bundle.sets ?? procedure.sets;
  const row = (name: string, value: string | Html): Html => html`<tr><th>${name}</th><td>${value}</td></tr>`;
  return html`<section class="front">
<h1>${procedure.title}</h1>
${where(ticket, ({ bundle }) => onHold(bundle, room))}
<table class="facts">
${where(ticket, ({ bundle }) => row(words.ticketed, html`${dayAndTime(inEnglish, bundle.ticketedAt)}`))}
${row(words.printed, html`${dayAndTime(inEnglish, at)}${where(ticket?.bundle.text, () => html` · ${words.fullDone}`)}`)}
${row(words.sets, setWords(sets, ticket))}
${where(ticket, ({ bundle }) => row(words.rolls, bundle.rolls.length > 0 ? bundle.rolls.join(', ') : words.noRolls))}
${row(words.work, words.order[procedure.work])}
${where(text.release, ({ revision, by, at: released }) =>
  row(words.theRevision, `${revision}, ${signedWords(inEnglish, room, 'released', { by, at: released })}`),
)}
${where(ticket, ({ bundle }) => html`${settledWords(bundle, room).map((said) => row(words.settled, said))}`)}
${row(words.wholeDigest, html`<code>${text.digest}</code>`)}
</table>
${prose(procedure.intro)}
${kitTable(procedure.kit, sets)}
<p>${words.how}</p>
<p class="reminds">${words.reminds}</p>
</section>`;
}

/** Holds that were settled, each with its signature. */
const settledWords = ({ holds }: Bundle, room: Room): readonly string[] =>
  holds.flatMap(({ name, settled }) =>
    settled
      ? [`${name}, ${settled.how.as}: ${settled.reason}. ${signedWords(inEnglish, room, 'settled', settled)}`]
      : [],
  );

function setWords(sets: number, ticket: OnTicket | null): string {
  const scrapped = [...(ticket?.bundle.scrapped ?? [])].sort((a, b) => a - b).map(words.set);
  return scrapped.length > 0 ? `${sets}, ${words.scrapped}: ${scrapped.join(', ')}` : String(sets);
}

function onHold(bundle: Bundle, room: Room): Html {
  const hold = openHold(bundle);
  return hold
    ? html`<p class="hold"><b>${words.hold} ${hold.name}</b>, ${nameOf(room, hold.by)}, ${dayAndTime(inEnglish, hold.at)}: ${hold.reason}<br>${words.holdWay}</p>`
    : nothing;
}

function kitTable(kit: readonly KitPiece[], sets: number): Html {
  if (kit.length === 0) return nothing;
  const rows = kit.map(
    ({ id, words: said, count, side }) =>
      html`<tr><td><b>${id}</b></td><td>${said}${where(side, (hand) => html` (${words[hand]})`)}</td><td class="n">${count}</td><td class="n">${count * sets}</td><td><span class="box"></span></td></tr>`,
  );
  const all = kit.reduce((sum, { count }) => sum + count, 0);
  return html`<h2>${words.kit}</h2>
<table class="kit">
<tr><th></th><th>${words.piece}</th><th>${words.inASet}</th><th>${words.inTheBundle}</th><th>${words.counted}</th></tr>
${rows}
<tr><td></td><td></td><td class="n"><b>${all}</b></td><td class="n"><b>${all * sets}</b></td><td></td></tr>
</table>`;
}
