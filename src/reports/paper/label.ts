import { dayOf } from '../../app/when.ts';
import { setCount } from '../../app/words.ts';
import type { Procedure } from '../../procedure/procedure.ts';
import type { Say } from '../../words/say.ts';
import { barPicture, qrPicture } from './code-pictures.ts';
import { html, where } from './html.ts';
import { labelStyle } from './label-style.ts';
import { page } from './page.ts';
import type { OnTicket, PaperWords } from './sheet-matter.ts';

/** A ticket to be tied to its bundle: 100 by 62 mm. `revision` is the one the bundle is on, or would be opened on. */
export function label(
  { say, language }: PaperWords,
  procedure: Procedure,
  revision: string,
  { bundle, copy }: OnTicket,
): string {
  const { ticket, sets, rolls, ticketedAt } = bundle;
  const body = html`<div class="label">
<div class="top">
<div class="whose">
<div class="name" style="font-size:${sizeFor(ticket)}pt">${ticket}</div>
<div class="title"><b>${procedure.id}</b> ${say('revision')} <b>${revision}</b><br>${procedure.title}</div>
${where(copy > 0 && copy, (n) => html`<div><b class="mark">${say('COPY {number}', { number: n })}</b></div>`)}
</div>
${qrPicture(ticket, 24)}
</div>
<div class="says">${setCount(say, sets)} · ${kitWords(say, procedure, sets)} · ${dayOf(say, ticketedAt)}<br>${say('Rolls')}: ${rolls.length > 0 ? rollWords(say, rolls) : say('none named yet')}</div>
<div class="bar">${barPicture(ticket, 92, 11)}</div>
</div>`;
  return page(ticket, labelStyle, body, language);
}

/** As many pieces as there should be, and the pairs that must come in equal count. */
function kitWords(say: Say, { kit }: Procedure, sets: number): string {
  const count = (side: 'left' | 'right' | null): number =>
    kit.reduce((sum, piece) => sum + (side === null || piece.side === side ? piece.count * sets : 0), 0);
  const [left, right] = [count('left'), count('right')];
  const sides = left + right === 0 ? '' : ` (${left} ${say('left')}, ${right} ${say('right')})`;
  const pieces = count(null);
  return `${pieces === 1 ? say('1 piece') : say('{count} pieces', { count: pieces })}${sides}`;
}

/** The first rolls by name; a label has room for so many letters. The ledger has them all. */
function rollWords(say: Say, rolls: readonly string[]): string {
  let shown = 1;
  while (shown < rolls.length && rolls.slice(0, shown + 1).join(', ').length <= MOST_ROLL_LETTERS) shown++;
  const rest = rolls.length - shown;
  return `${rolls.slice(0, shown).join(', ')}${rest > 0 ? ` ${say('and {count} more', { count: rest })}` : ''}`;
}

const MOST_ROLL_LETTERS = 60;

/** Points of type in which a name of up to 40 letters fits beside the QR code, in two lines at most. */
function sizeFor(name: string): number {
  if (name.length <= 8) return 28;
  if (name.length <= 14) return 20;
  return name.length <= 24 ? 15 : 12;
}
