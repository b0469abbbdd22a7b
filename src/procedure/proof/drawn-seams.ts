import type { Drawing, Part } from '../../drawing/drawing.ts';
import { joined } from '../../drawing/joined.ts';
import { isNamed, nameOf, partsNamed } from '../../drawing/named-part.ts';
import { nearestFirst } from '../nearest-first.ts';
import type { SeamsFact, Step } from '../procedure.ts';
import { wayOut } from '../way-out.ts';
import type { Proof } from './proof.ts';
import { both, COMMON_PRACTICE, type Rule } from './rule.ts';
import { isMeasurable, type ShownDrawing, unmeasured } from './shown-drawing.ts';

const PICTURE = '![The strap](../media/panel.svg#ST)\n\n- [ ] Strap lies flat';
const STRAP =
  '<g id="ST"><rect class="piece" width="90" height="25"/><line id="seam-ST" class="seam" x1="3" y1="3" x2="87" y2="3"/></g>';
const EDGES = (length: number): string =>
  [
    '<line id="A-aft" class="edge" y1="10" x2="90" y2="10"/><path id="notch-A-aft-1" class="notch" d="M37 10l3 -3l3 3"/>',
    `<line id="B-front" class="edge" y1="40" x2="${length}" y2="40"/><path id="notch-B-front-1" class="notch" d="M37 40l3 3l3 -3"/>`,
    '<line id="A-B" class="seam" y1="25" x2="90" y2="25"/>',
  ].join('\n');

/** Without ease two edges are cut to one length; a drawing is not more exact than half a millimetre. */
const ROUNDING = 0.5;

/** Rules on what is sewn, held against the seams, edges and notches of the drawing. */
export const DRAWN_SEAMS: readonly Rule[] = [
  {
    name: 'seam-not-drawn',
    from: [],
    severity: 'warning',
    why: 'A seam that the drawing does not have is a slip of the pen, or was forgotten in the drawing.',
    source: COMMON_PRACTICE,
    bad: `- Seams: ¦ST SU\n\n${PICTURE}`,
    good: `- Seams: ST\n\n${PICTURE}`,
    drawing: both(STRAP),
    check: (proof, say) => {
      const drawn = seamsDrawn(proof);
      if (drawn.length === 0) return;
      for (const { seams, step } of sewn(proof)) {
        for (const id of seams.ids) {
          if (drawn.some(({ part }) => isNamed(part, id))) continue;
          const mend = 'Write the id of a seam that is drawn, or draw it with class="seam".';
          const message = `No drawing that is shown has a seam ${id}.`;
          say({ at: atSeams(proof, step, seams.text), found: id, message, mend });
        }
      }
    },
  },
  {
    name: 'seam-not-sewn',
    from: [],
    severity: 'warning',
    why: 'What is drawn and never sewn was forgotten in the text, or is left over in the drawing.',
    source: COMMON_PRACTICE,
    bad: `- Seams: SU\n\n¦${PICTURE}`,
    good: `- Seams: ST\n\n${PICTURE}`,
    drawing: both(STRAP),
    check: (proof, say) => {
      const ids = sewn(proof).flatMap(({ seams }) => seams.ids);
      // A text that names no seam at all is not about sewing, whatever its drawing shows.
      if (ids.length === 0) return;
      for (const { part, address, line } of seamsDrawn(proof)) {
        if (ids.some((id) => isNamed(part, id))) continue;
        const name = nameOf(part) ?? 'a seam without an id';
        const mend = 'Name it in Seams: of the step that sews it, or take it out of the drawing.';
        say({ at: proof.at(line), found: name, message: `${address} shows ${name}, which no step sews.`, mend });
      }
    },
  },
  {
    name: 'joined-edge-missing',
    from: [],
    severity: 'error',
    why: 'Two edges are held against each other in the drawing, and both must be there, with a notch for each notch.',
    source: COMMON_PRACTICE,
    bad: `- Seams: ¦A-B, joins A-aft to B-fore\n\n${PICTURE.replace('#ST', '#A-B')}`,
    good: `- Seams: A-B, joins A-aft to B-front\n\n${PICTURE.replace('#ST', '#A-B')}`,
    drawing: both(EDGES(90)),
    check: (proof, say) => {
      for (const { laid, text, step } of joins(proof)) {
        if (typeof laid !== 'string') continue;
        const { message, mend } = wayOut(laid);
        const otherwise = 'Draw both edges with class="edge", or leave the join out.';
        say({ at: atSeams(proof, step, text), found: text, message, mend: mend ?? otherwise });
      }
    },
  },
  {
    name: 'joined-edges-unlike',
    from: ['L42'],
    severity: 'error',
    why: 'Edges that are not of one length between their notches pucker, or end apart, whoever sews them.',
    source: 'arithmetic: lengths between notches in the drawing',
    bad: `- Seams: ¦A-B, joins A-aft to B-front, ease 2 mm\n\n${PICTURE.replace('#ST', '#A-B')}`,
    good: `- Seams: A-B, joins A-aft to B-front, ease 4 mm\n\n${PICTURE.replace('#ST', '#A-B')}`,
    drawing: both(EDGES(93)),
    check: (proof, say) => {
      for (const { laid, text, ease, step, names } of joins(proof)) {
        if (typeof laid === 'string') continue;
        const allowed = Math.max(ROUNDING, ease);
        const off = laid.find(({ lengths: [a, b] }) => Math.abs(a - b) > allowed + 1e-6);
        if (off === undefined) continue;
        const [a, b] = off.lengths.map((length) => Number(length.toFixed(2)));
        const message = `From ${off.words}, ${names[0]} is ${a} mm and ${names[1]} is ${b} mm; the ease is ${ease} mm.`;
        const mend = 'Correct the drawing or its notches, or name the ease that is meant, such as ease 2 mm.';
        say({ at: atSeams(proof, step, text), found: text, message, mend });
      }
    },
  },
];

interface Sewn {
  readonly step: Step;
  readonly seams: SeamsFact;
}

const sewn = ({ procedure }: Proof): readonly Sewn[] =>
  procedure.steps.flatMap((step) => (step.facts.seams ? [{ step, seams: step.facts.seams }] : []));

interface DrawnSeam {
  readonly part: Part;
  readonly address: string;
  readonly line: number;
}

const seamsDrawn = ({ drawings }: Proof): readonly DrawnSeam[] =>
  (drawings ?? []).flatMap(({ address, picture, read }) =>
    read.drawing.parts.filter(({ kind }) => kind === 'seam').map((part) => ({ part, address, line: picture.line })),
  );

interface Join {
  readonly step: Step;
  readonly text: string;
  readonly names: readonly [string, string];
  readonly ease: number;
  /** The stretches, or the reason why there are none. */
  readonly laid: string | readonly { readonly words: string; readonly lengths: readonly [number, number] }[];
}

function joins(proof: Proof): readonly Join[] {
  const { drawings } = proof;
  if (drawings === null) return [];
  return sewn(proof).flatMap(({ step, seams }) =>
    (seams.joins ?? []).map((names) => ({
      step,
      text: seams.text,
      names,
      ease: Number(seams.ease ?? 0),
      laid: lay(nearestFirst(drawings, step), names),
    })),
  );
}

const hasAll = (drawing: Drawing, names: readonly string[]): boolean =>
  names.every((name) => partsNamed(drawing, name).length === 1);

function lay(shown: readonly ShownDrawing[], names: readonly [string, string]): Join['laid'] {
  const drawing = shown.filter(isMeasurable).find(({ read }) => hasAll(read.drawing, names))?.read.drawing;
  const [first, second] = drawing === undefined ? [] : names.flatMap((name) => partsNamed(drawing, name));
  if (drawing === undefined || first === undefined || second === undefined) {
    // Edges may well be drawn where nothing can be measured: what is wrong there comes first.
    const wrong = shown.find((each) => !isMeasurable(each));
    return wrong === undefined
      ? `No drawing that is shown has both ${names.join(' and ')}.`
      : unmeasured(wrong, 'leave the join out');
  }
  const laid = joined(drawing, first, second);
  return laid.ok ? laid.value : laid.error.message;
}

/** The words behind `Seams:` of a step. */
function atSeams({ source, at }: Proof, { line }: Step, text: string): number {
  const found = source.text.indexOf(text, at(line));
  return found < 0 ? at(line) : found;
}
