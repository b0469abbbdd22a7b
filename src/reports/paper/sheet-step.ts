import { seamsSaid } from '../../app/seam-words.ts';
import { type SetNumber, setsLeft } from '../../bundle/bundle.ts';
import { nameOf } from '../../bundle/room.ts';
import type { Step } from '../../procedure/procedure.ts';
import type { Say } from '../../words/say.ts';
import { cautionBox } from './caution-box.ts';
import { type Html, html, nothing, where } from './html.ts';
import { prose } from './prose.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { isAnswered, pointAnswers } from './sheet-point.ts';
import { stepPicture } from './step-picture.ts';

/** A step with its cautions before its points; what is done for each set has a place for each. */
export function sheetStep(step: Step, matter: SheetMatter): Html {
  const { number, title, cautions, pictures, points } = step;
  const sets = setsOf(step, matter);
  const shown = pictures.map((picture) => stepPicture(picture, matter.pictures));
  return html`<section class="step">
<div class="opening">
<h2><span class="number">${number}</span> ${title}</h2>
${factLine(step, matter)}
</div>
${cautions.map((caution, at) => cautionBox(matter.say, caution, readBoxes(step, at + 1, matter)))}
<div class="explains${shown.length > 0 ? ' pictured' : ''}"><div>${prose(step.prose)}</div>${shown.length > 0 ? html`<div>${shown}</div>` : nothing}</div>
${points.map((point) => html`<div class="point">${pointAnswers(point, step, sets, matter)}</div>`)}
${doneLines(
  matter.say,
  sets.filter((set) => points.some((point) => !isAnswered(point, step, set, matter))),
)}
</section>`;
}

/** The sets a step is done for, as far as they are not scrapped; null alone for the whole bundle. */
function setsOf({ facts }: Step, { procedure, ticket }: SheetMatter): readonly SetNumber[] {
  if (facts.scope === 'bundle') return [null];
  return ticket ? setsLeft(ticket.bundle) : Array.from({ length: procedure.sets }, (_, index) => index + 1);
}

function factLine({ id, facts }: Step, { say, ticket, room }: SheetMatter): Html {
  const helpers = ticket?.bundle.helps.filter(({ step }) => step === id).map(({ by }) => nameOf(room, by)) ?? [];
  const said: readonly Html[] = [
    html`<span>${facts.scope === 'bundle' ? say('For the whole bundle') : say('For each set')}</span>`,
    where(facts.allowedMinutes, (minutes) => html`<span>${say('Allowed time: {minutes} min', { minutes })}</span>`),
    facts.cannotBeUndone ? html`<b class="mark">${say('Cannot be undone')}</b>` : nothing,
    where(facts.seams, (seams) => html`<span>${seamsSaid(say, seams)}</span>`),
    where(facts.ifOut, ({ text }) => html`<span><b>${say('If out:')}</b> ${text}</span>`),
    where(
      facts.needsSkill,
      (skill) =>
        html`<span>${say('Needs skill: {skill}', { skill })}; ${say('below level 3, who stands by:')} ${[...new Set(helpers)].join(', ')} <span class="line"></span></span>`,
    ),
  ];
  return html`<div class="facts-of-step">${said}</div>`;
}

/** One box, or one for each set where a caution is read every time; beside it who has read it already: whoever has not, reads it. */
function readBoxes(step: Step, caution: number, matter: SheetMatter): Html {
  const { say, procedure, ticket, room } = matter;
  const isEach = procedure.readCautions === 'every time';
  const reads = ticket?.bundle.cautionsRead.filter((read) => read.step === step.id && read.caution === caution) ?? [];
  const boxes = (isEach ? setsOf(step, matter) : [null]).map((set) => {
    const count = reads.filter((read) => !read.again && (!isEach || read.set === set));
    const names = [...new Set(count.map(({ hand }) => nameOf(room, hand)))];
    return html`<span class="answer">${where(set, (n) => html`${say('set {set}', { set: n })} `)}${names.map((name) => html`✓ ${name} `)}<span class="box"></span></span>`;
  });
  return html`${say('read')} ${boxes}`;
}

/** Who did it and when, for whoever types it in afterwards. */
const doneLines = (say: Say, sets: readonly SetNumber[]): Html =>
  where(
    sets.length > 0 && sets,
    (each) =>
      html`<div class="done-lines">${each.map(
        (set) =>
          html`<span class="answer">${where(set, (n) => html`${say('set {set}', { set: n })} `)}${say('done on, at')} <span class="line"></span> ${say('by')} <span class="line"></span></span>`,
      )}</div>`,
  );
