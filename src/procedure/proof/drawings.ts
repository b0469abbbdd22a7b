import type { Severity } from '../../base/finding.ts';
import { isDrawing } from '../../drawing/measurable.ts';
import type { Proof } from './proof.ts';
import { both, COMMON_PRACTICE, type Rule } from './rule.ts';
import type { ShownDrawing } from './shown-drawing.ts';

/** As many faults of one drawing are told; the others come up when these are mended. */
const MOST = 5;

const SHOWN = '¦![The panel](../media/panel.svg#A)\n\n- [ ] Panel lies flat';

/** Rules on the drawings as files: whether they can be read, measured and brought out as the text says. */
export const DRAWINGS: readonly Rule[] = [
  {
    name: 'drawing-fault',
    from: [],
    severity: 'error',
    why: 'A drawing is printed by a browser and measured by the program: nothing in it may run or fetch, and all of it must be readable.',
    source:
      'SVG 2, chapters 2 and 15 (conformance, scripting), read in part; what is refused is this program’s own choice',
    bad: SHOWN,
    good: SHOWN.slice(1),
    drawing: {
      bad: '<rect id="A" class="piece" width="90" height="50" onclick="alert(1)"/>',
      good: '<rect id="A" class="piece" width="90" height="50"/>',
    },
    check: (proof, say) => {
      for (const shown of proof.drawings ?? []) tell(proof, shown, 'error', say);
    },
  },
  {
    name: 'drawing-half-read',
    from: [],
    severity: 'warning',
    why: 'What is not read is shown on paper only: neither on the screen nor measured.',
    source: 'how a drawing is read: procedures/README.md',
    bad: SHOWN,
    good: SHOWN.slice(1),
    drawing: {
      bad: '<rect id="A" class="piece" width="90" height="50"/><use href="#A" x="100"/>',
      good: '<rect id="A" class="piece" width="90" height="50"/><rect x="100" width="90" height="50"/>',
    },
    check: (proof, say) => {
      for (const shown of proof.drawings ?? []) tell(proof, shown, 'warning', say);
    },
  },
  {
    name: 'drawing-not-to-scale',
    from: ['L15'],
    severity: 'warning',
    why: 'A panel whose drawing is in other units cannot be compared with the numbers of the text.',
    source: COMMON_PRACTICE,
    bad: SHOWN,
    good: SHOWN.slice(1),
    drawing: {
      bad: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100"><rect id="A" class="piece" width="90" height="50"/></svg>',
      good: '<rect id="A" class="piece" width="90" height="50"/>',
    },
    check: ({ drawings, at }, say) => {
      for (const { address, picture, read } of drawings ?? []) {
        const units = read.findings.find(({ rule }) => rule === 'drawing-units');
        // A picture without parts of a panel is only looked at.
        if (units === undefined || read.drawing.parts.every(({ kind }) => kind === 'other')) continue;
        say({ at: at(picture.line), found: address, message: units.message, mend: units.mend });
      }
    },
  },
  {
    name: 'picture-id-missing',
    from: [],
    severity: 'error',
    why: 'Whoever looks for the part that the picture should bring out finds nothing brought out.',
    source: COMMON_PRACTICE,
    bad: '¦![The panel](../media/panel.svg#A,B)\n\n- [ ] Panel lies flat',
    good: '![The panel](../media/panel.svg#A)\n\n- [ ] Panel lies flat',
    drawing: both('<rect id="A" class="piece" width="90" height="50"/>'),
    check: ({ drawings, procedure, at }, say) => {
      if (drawings === null) return;
      // What could not be read has parts that nobody knows of yet.
      const whole = drawings.filter(({ read }) => read.findings.every((finding) => finding.severity !== 'error'));
      const known = new Map(whole.map(({ address, read }) => [address, read.ids]));
      for (const { address, bringOut, line } of procedure.steps.flatMap(({ pictures }) => pictures)) {
        const ids = isDrawing(address) ? known.get(address) : NO_IDS;
        const missing = ids === undefined ? undefined : bringOut.find((id) => !ids.has(id));
        if (missing === undefined) continue;
        const mend = 'Write an id that the drawing has, or give a part of it this one.';
        say({ at: at(line), found: `${address}#${missing}`, message: `${address} has no part ${missing}.`, mend });
      }
    },
  },
];

/** A photograph has no parts. */
const NO_IDS: ReadonlySet<string> = new Set();

function tell({ at }: Proof, shown: ShownDrawing, which: Severity, say: Parameters<Rule['check']>[1]): void {
  const { address, picture, read } = shown;
  const findings = read.findings.filter(({ severity, rule }) => severity === which && rule !== 'drawing-units');
  for (const { line, message, found, mend } of findings.slice(0, MOST)) {
    say({ at: at(picture.line), found: found || address, message: `${address}, line ${line}: ${message}`, mend });
  }
}
