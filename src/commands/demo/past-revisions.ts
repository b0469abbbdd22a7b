import type { ProcedureId } from '../../base/brand.ts';
import { CUS, LIN } from './tickets.ts';

/**
 * The texts a procedure had before the one given, oldest first: invented history, made from the text of today by a few
 * edits backwards. Throws when a passage is not in the text exactly once: then the text has changed and the edits must too.
 */
export function pastRevisions(procedure: ProcedureId, text: string): readonly string[] {
  const older: string[] = [];
  for (const edits of backwards.get(procedure) ?? []) older.unshift(edits.reduce(edited, older[0] ?? text));
  return older;
}

interface Edit {
  /** What the newer text has of it. */
  readonly what: string;
  readonly from: string;
  readonly to: string;
}

/** For each procedure the edits from its newest text to the one before, from that to the one before, and so on. */
const backwards: ReadonlyMap<ProcedureId, readonly (readonly Edit[])[]> = new Map([
  [
    LIN,
    [
      [
        {
          what: 'a second person sees the lines before the needle',
          from: '- [ ] **Hold point** drawn lines seen by a second person\n',
          to: '',
        },
        {
          what: 'the first row is closer to the seam',
          from: 'T1 from the seam, three places ____ ____ ____ mm (3 ±0.5',
          to: 'T1 from the seam, three places ____ ____ ____ mm (3 ±1',
        },
        {
          what: 'the bobbin is never changed inside a row',
          from: ', then stop and measure. Never change the bobbin inside a row.',
          to: ', then stop and measure.',
        },
      ],
      [
        {
          what: 'the seam on C keeps to its line',
          from: '- [ ] M2b: seam on C to its front edge ____ ____ ____ mm (312 ±1.5',
          to: '- [ ] M2b: seam on C to its front edge ____ ____ ____ mm (312 ±3',
        },
        {
          what: 'the first row is looked over before the others',
          from: '- [ ] **Hold point** first row looked over\n',
          to: '',
        },
      ],
    ],
  ],
  [
    CUS,
    [
      [
        {
          what: 'a twist between the plates is found sooner',
          from: '- [ ] M8: diagonals differ by `|d1 - d2|` = ____ mm (max 5)',
          to: '- [ ] M8: diagonals differ by `|d1 - d2|` = ____ mm (max 8)',
        },
        {
          what: 'a second roll is found before the loop is closed',
          from: '- [ ] Roll number on BX is the roll of the plates\n',
          to: '',
        },
      ],
    ],
  ],
]);

function edited(text: string, { what, from, to }: Edit): string {
  const times = text.split(from).length - 1;
  if (times !== 1)
    throw new Error(
      `an older text cannot be made (“${what}”): “${from.trim()}” stands ${times} times in the newer one`,
    );
  return text.replace(from, () => to);
}
