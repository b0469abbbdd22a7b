import type { Part } from '../drawing.ts';

/** What a layer of a pattern file holds, and what becomes of it. */
export interface Layer {
  readonly means: string;
  readonly becomes: Part['kind'] | 'words' | 'left out';
  /** Begins the ids of what is on it, such as `seam` for `seam-A-1`. */
  readonly prefix: string;
}

/**
 * Layers of ASTM D6673-10, Standard Practice for Sewn Products Pattern Data Interchange (withdrawn 2019); the table read in two summaries, which
 * agree on 1 to 11, 13 and 14. Layer 12 is blank there. ANSI/AAMA-292 has the same 1 to 14.
 */
export const LAYERS: ReadonlyMap<number, Layer> = new Map([
  [1, { means: 'piece boundary', becomes: 'piece', prefix: 'piece' }],
  [2, { means: 'turn points of other lines', becomes: 'left out', prefix: '' }],
  [3, { means: 'curve points of other lines', becomes: 'left out', prefix: '' }],
  [4, { means: 'notches', becomes: 'notch', prefix: 'notch' }],
  [5, { means: 'grade reference', becomes: 'other', prefix: 'grade' }],
  [6, { means: 'mirror line', becomes: 'other', prefix: 'mirror' }],
  [7, { means: 'grain line', becomes: 'other', prefix: 'grain' }],
  [8, { means: 'internal lines', becomes: 'mark', prefix: 'mark' }],
  [9, { means: 'stripe reference', becomes: 'other', prefix: 'stripe' }],
  [10, { means: 'plaid reference', becomes: 'other', prefix: 'plaid' }],
  [11, { means: 'internal cutouts', becomes: 'mark', prefix: 'cutout' }],
  [13, { means: 'drill holes', becomes: 'mark', prefix: 'hole' }],
  [14, { means: 'sew lines', becomes: 'seam', prefix: 'seam' }],
  [15, { means: 'annotation', becomes: 'words', prefix: '' }],
  [80, { means: 'T-notches', becomes: 'notch', prefix: 'notch' }],
  [81, { means: 'castle notches', becomes: 'notch', prefix: 'notch' }],
  [82, { means: 'check notches', becomes: 'notch', prefix: 'notch' }],
  [83, { means: 'U-notches', becomes: 'notch', prefix: 'notch' }],
  [84, { means: 'a second copy of layer 1, for checking', becomes: 'left out', prefix: '' }],
  [85, { means: 'a second copy of layer 8, for checking', becomes: 'left out', prefix: '' }],
  [86, { means: 'a second copy of layer 11, for checking', becomes: 'left out', prefix: '' }],
  [87, { means: 'a second copy of layer 14, for checking', becomes: 'left out', prefix: '' }],
]);

/** The layer of this name; one that the practice does not know keeps its lines, without a meaning. */
export const layerNamed = (name: string): Layer | undefined =>
  /^\d{1,3}$/.test(name) ? LAYERS.get(Number(name)) : undefined;
