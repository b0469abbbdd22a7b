import { settledWays, signedWords } from '../../app/signed-words.ts';
import { dayAndTime } from '../../app/when.ts';
import { type Bundle, openHold } from '../../bundle/bundle.ts';
import { nameOf, type Room } from '../../bundle/room.ts';
import type { KitPiece } from '../../procedure/procedure.ts';
import type { Say } from '../../words/say.ts';
import { type Html, html, nothing, where } from './html.ts';
import { prose } from './prose.ts';
import type { OnTicket, SheetMatter } from './sheet-matter.ts';

/** What is read before the first step: what it is about, the kit to count, and how the sheet is filled in. */
export function sheetFront({ say, procedure, text, ticket, room, at }: SheetMatter): Html {
  const sets = ticket?.bundle.sets ?? procedure.sets;
  const row = (name: string, value: string | Html): Html => html`<tr><th>${name}</th><td>${value}</td></tr>`;
  return html`<section class="front">
<h1>${procedure.title}</h1>
${where(ticket, ({ bundle }) => onHold(say, bundle, room))}
<table class="facts">
${where(ticket, ({ bundle }) => row(say('Ticket of'), html`${dayAndTime(say, bundle.ticketedAt)}`))}
${row(say('Printed'), html`${dayAndTime(say, at)}${where(ticket?.bundle.text, () => html` · ${say('done so far is printed with its time; what is blank is still to do')}`)}`)}
${row(say('Sets in the bundle'), setWords(say, sets, ticket))}
${where(ticket, ({ bundle }) => row(say('Rolls'), bundle.rolls.length > 0 ? bundle.rolls.join(', ') : say('none named yet')))}
${row(say('Work'), say(procedure.work === 'set by set' ? 'set by set' : 'step by step, each on all sets'))}
${where(text.release, ({ revision, by, at: released }) =>
  row(say('Revision'), `${revision}, ${signedWords(say, room, 'released', { by, at: released })}`),
)}
${where(ticket, ({ bundle }) => html`${settledWords(say, bundle, room).map((said) => row(say('Was on hold'), said))}`)}
${row(say('SHA-256 of the text'), html`<code>${text.digest}</code>`)}
${where(text.sheet, (digest) => row(say('SHA-256 of this sheet'), html`<code>${digest}</code>`))}
</table>
${prose(procedure.intro)}
${kitTable(say, procedure.kit, sets)}
<p>${say('Tick a box when the point is done. Write a number as you read it, in the unit behind the blank, with its time. Of several words, those in bold are good to go on with. A number that is not in its limit: measure again, then do what “If out” says, or stop and call a supervisor.')}</p>
<p class="reminds">${say('This sheet reminds; it guards nothing. Local codes, the machine makers’ manuals and competent people decide; where they differ from it, they are right.')}</p>
</section>`;
}

/** Holds that were settled, each with its signature. */
const settledWords = (say: Say, { holds }: Bundle, room: Room): readonly string[] =>
  holds.flatMap(({ name, settled }) =>
    settled
      ? [
          `${name}, ${say(settledWays[settled.how.as])}: ${settled.reason}. ${signedWords(say, room, 'settled', settled)}`,
        ]
      : [],
  );

function setWords(say: Say, sets: number, ticket: OnTicket | null): string {
  const scrapped = [...(ticket?.bundle.scrapped ?? [])].sort((a, b) => a - b).map((set) => say('set {set}', { set }));
  return scrapped.length > 0 ? `${sets}, ${say('scrapped')}: ${scrapped.join(', ')}` : String(sets);
}

function onHold(say: Say, bundle: Bundle, room: Room): Html {
  const hold = openHold(bundle);
  return hold
    ? html`<p class="hold"><b>${say('ON HOLD')} ${hold.name}</b>, ${nameOf(room, hold.by)}, ${dayAndTime(say, hold.at)}: ${hold.reason}<br>${say('Do not work on until a supervisor has settled it.')}</p>`
    : nothing;
}

function kitTable(say: Say, kit: readonly KitPiece[], sets: number): Html {
  if (kit.length === 0) return nothing;
  const rows = kit.map(
    ({ id, words: said, count, side }) =>
      html`<tr><td><b>${id}</b></td><td>${said}${where(side, (hand) => html` (${say(hand)})`)}</td><td class="n">${count}</td><td class="n">${count * sets}</td><td><span class="box"></span></td></tr>`,
  );
  const all = kit.reduce((sum, { count }) => sum + count, 0);
  return html`<h2>${say('Kit')}</h2>
<table class="kit">
<tr><th></th><th>${say('piece')}</th><th>${say('in a set')}</th><th>${say('in the bundle')}</th><th>${say('counted')}</th></tr>
${rows}
<tr><td></td><td></td><td class="n"><b>${all}</b></td><td class="n"><b>${all * sets}</b></td><td></td></tr>
</table>`;
}
