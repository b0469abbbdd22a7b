/**
 * Widths of columns brought down until they add up to at most `room`: the widest gives way first, none goes below its `least`. The sum
 * stays above `room` only when all have reached that.
 */
export function shrink(natural: readonly number[], room: number, least: (at: number) => number): readonly number[] {
  const sizes = [...natural];
  let excess = sizes.reduce((total, size) => total + size, 0) - room;
  while (excess > 0) {
    const widest = sizes.reduce((best, size, at) => (size > least(at) && size > (sizes[best] ?? 0) ? at : best), -1);
    const size = sizes[widest];
    if (size === undefined) break;
    sizes[widest] = size - 1;
    excess -= 1;
  }
  return sizes;
}
