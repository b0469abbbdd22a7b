import type Fraction from 'fraction.js';

/** What a room reckons its thread by: its own numbers, since published ratios differ up to threefold. */
export interface RoomThread {
  /** Wound on a full bobbin, mm; null where the room does not reckon with bobbins. */
  readonly bobbin: Fraction | null;
  /** Per cent of the thread that is thrown away: tails, trials, ends of cones. */
  readonly waste: Fraction;
  /** By stitch type of ISO 4915. */
  readonly ratios: ReadonlyMap<string, RoomRatio>;
}

export interface RoomRatio {
  /** All its thread to a length of seam, and the needle's share of that in per cent. */
  readonly ratio: Fraction;
  readonly needleShare: Fraction;
  /** Where the room has it from. */
  readonly source: string;
}
