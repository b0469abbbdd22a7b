import type Fraction from 'fraction.js';

/** How much thread a seam takes, as lengths of thread to a length of seam. */
export interface ThreadRatio {
  readonly needle: Fraction;
  /** Of a lockstitch the bobbin's thread, of others the loopers'. */
  readonly under: Fraction;
}

/**
 * The lockstitch, 301, by geometry: each stitch lays its length on either side and goes through the material once with either thread, so
 * 2 + 2·T/L to a length of seam, half of it from the bobbin, with the interlock in the middle of the material. `thickness` T is the material pressed
 * together, `stitchLength` L one stitch, both mm, L above 0. Published as 2 + 2·T·S with S stitches to the unit (trade pages on thread consumption).
 */
export function lockstitchRatio(thickness: Fraction, stitchLength: Fraction): ThreadRatio {
  const side = thickness.div(stitchLength).add(1);
  return { needle: side, under: side };
}

/** A ratio that a room keeps for another stitch type: all its thread to a length of seam, and the needle's share of that in per cent. */
export function keptRatio(ratio: Fraction, needleShare: Fraction): ThreadRatio {
  const needle = ratio.mul(needleShare).div(100);
  return { needle, under: ratio.sub(needle) };
}

/** Thread for a length of seam, mm, with so many per cent of it thrown away. */
export function threadFor({ needle, under }: ThreadRatio, seam: Fraction, waste: Fraction): ThreadRatio {
  const of = (ratio: Fraction): Fraction => seam.mul(ratio).mul(waste.add(100)).div(100);
  return { needle: of(needle), under: of(under) };
}
