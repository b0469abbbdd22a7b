import { cutPiece } from '../../drawing/cut-piece.ts';
import type { Drawing, Part } from '../../drawing/drawing.ts';
import { handOf } from '../../drawing/mirrored.ts';
import { nameOf } from '../../drawing/named-part.ts';
import type { KitPiece } from '../procedure.ts';
import type { Proof } from './proof.ts';
import { both, COMMON_PRACTICE, type Rule } from './rule.ts';

const example = (kit: string): string =>
  `---\nprocedure: LIN-1\ntitle: Lining\nkit:\n${kit}\n---\n\n## Count the kit\n\n![The pieces](../media/panel.svg)\n\n- [ ] All pieces are there`;

const SQUARE = (id: string, x: number): string => `<rect id="${id}" class="piece" x="${x}" width="40" height="40"/>`;
const STRAPS = (count: number): string =>
  `<g id="ST">${Array.from({ length: count }, (_, index) => `<rect class="piece" y="${50 + 20 * index}" width="90" height="15"/>`).join('')}</g>`;
const PATCH = (id: string, points: string): string => `<polygon id="${id}" class="piece" points="${points}"/>`;
const LEFT = PATCH('P-L', '0,0 50,0 30,40 0,40');

/** Rules on the pieces of the kit, held against those that are drawn. They ask nothing where no drawing has a piece. */
export const DRAWN_KIT: readonly Rule[] = [
  {
    name: 'kit-piece-not-drawn',
    from: [],
    severity: 'warning',
    why: 'Whoever counts the kit looks at the drawing; a piece that is not in it is looked for in vain.',
    source: COMMON_PRACTICE,
    bad: example('  A: panel\n  ¦B: patch'),
    good: example('  A: panel\n  B: patch'),
    drawing: { bad: SQUARE('A', 0), good: SQUARE('A', 0) + SQUARE('B', 60) },
    check: (proof, say) => {
      const drawn = pieces(proof);
      if (drawn.length === 0) return;
      for (const { id } of proof.procedure.kit) {
        if (drawn.some(({ name }) => name === id)) continue;
        const mend =
          'Draw it with class="piece" and this id, alone or in a group of that id, or take it out of the kit.';
        say({ at: kitLine(proof, id), found: id, message: `No drawing that is shown has a piece ${id}.`, mend });
      }
    },
  },
  {
    name: 'drawn-piece-not-in-kit',
    from: [],
    severity: 'warning',
    why: 'A piece that is drawn and not counted can be missing without anybody seeing it.',
    source: COMMON_PRACTICE,
    bad: example('  A: panel').replace('![', '¦!['),
    good: example('  A: panel\n  B: patch'),
    drawing: both(SQUARE('A', 0) + SQUARE('B', 60)),
    check: (proof, say) => {
      const { kit } = proof.procedure;
      if (kit.length === 0) return;
      const told = new Set<string>();
      for (const { name, address, line } of pieces(proof)) {
        if (name === undefined || told.has(name) || kit.some(({ id }) => id === name)) continue;
        told.add(name);
        const mend = 'Add it to kit: at the top, or take class="piece" away from it.';
        say({
          at: proof.at(line),
          found: name,
          message: `${address} shows a piece ${name} that the kit does not have.`,
          mend,
        });
      }
    },
  },
  {
    name: 'kit-count-unlike-drawing',
    from: ['L42'],
    severity: 'warning',
    why: 'The kit is counted by the one number and cut by the other. A piece may be drawn once, however often it is cut.',
    source: COMMON_PRACTICE,
    bad: example('  ¦ST: strap × 2'),
    good: example('  ST: strap × 2'),
    drawing: { bad: STRAPS(3), good: STRAPS(2) },
    check: (proof, say) => {
      for (const { id, count } of proof.procedure.kit) {
        const counts = countsOf(proof, id);
        const wrong = counts.find(({ drawn }) => drawn !== count && drawn !== 1);
        if (wrong === undefined) continue;
        const message = `The kit has ${count} of ${id}, and ${wrong.address} shows ${wrong.drawn}.`;
        say({ at: kitLine(proof, id), found: id, message, mend: 'Correct the number in the kit, or the drawing.' });
      }
    },
  },
  {
    name: 'pair-not-mirrored',
    from: [],
    severity: 'error',
    why: 'The left piece of a pair is the right one turned over. Cut twice the same way, one of them cannot be sewn in.',
    source: COMMON_PRACTICE,
    bad: example('  P-L: patch (left)\n  ¦P-R: patch (right)'),
    good: example('  P-L: patch (left)\n  P-R: patch (right)'),
    drawing: {
      bad: LEFT + PATCH('P-R', '100,0 150,0 130,40 100,40'),
      good: LEFT + PATCH('P-R', '150,0 100,0 120,40 150,40'),
    },
    check: (proof, say) => {
      const drawn = pieces(proof);
      for (const [left, right] of pairsOf(proof.procedure.kit)) {
        const [a, b] = [left, right].map(({ id }) => drawn.find(({ name }) => name === id));
        if (a === undefined || b === undefined) continue;
        const hand = handOf(cutPiece(a.drawing, a.part), cutPiece(b.drawing, b.part));
        if (hand === 'mirrored') continue;
        const how = hand === 'same' ? 'drawn the same way round' : 'not the same piece';
        const message = `${left.id} and ${right.id} are a pair, and they are ${how}.`;
        say({
          at: kitLine(proof, right.id),
          found: right.id,
          message,
          mend: 'Draw one of them as the other turned over, with its holes and notches.',
        });
      }
    },
  },
];

interface DrawnPiece {
  readonly name: string | undefined;
  readonly part: Part;
  readonly drawing: Drawing;
  readonly address: string;
  readonly line: number;
}

const pieces = ({ drawings }: Proof): readonly DrawnPiece[] =>
  (drawings ?? []).flatMap(({ address, picture, read }) =>
    read.drawing.parts
      .filter(({ kind }) => kind === 'piece')
      .map((part) => ({ name: nameOf(part), part, drawing: read.drawing, address, line: picture.line })),
  );

/** How often each drawing that has a piece shows it. */
function countsOf(proof: Proof, id: string): readonly { readonly address: string; readonly drawn: number }[] {
  const drawn = pieces(proof).filter(({ name }) => name === id);
  return [...new Set(drawn.map(({ address }) => address))].map((address) => ({
    address,
    drawn: drawn.filter((piece) => piece.address === address).length,
  }));
}

const pairsOf = (kit: readonly KitPiece[]): readonly (readonly [KitPiece, KitPiece])[] =>
  kit.flatMap((left) => {
    const right = kit.find(({ side, words }) => side === 'right' && words === left.words);
    return left.side === 'left' && right ? [[left, right] as const] : [];
  });

/** The line of a piece among those at the top. */
function kitLine({ source }: Proof, id: string): number {
  const found = new RegExp(`^(\\s+["']?)${RegExp.escape(id)}["']?\\s*:`, 'm').exec(source.text);
  return found === null ? 0 : found.index + (found[1]?.length ?? 0);
}
