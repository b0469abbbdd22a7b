/**
 * The numeric size beside a metric needle size, whose number is the blade's diameter in hundredths of a millimetre; undefined for a metric size
 * that is not made. From 140 on one numeric size stands for two metric ones. One chart has 17 for 110, all others 18.
 */
export const numericNeedle = (metric: number): number | undefined => NUMERIC.get(metric);

/** The metric sizes that one numeric size stands for; none where it is not made. */
export const metricNeedles = (numeric: number): readonly number[] =>
  [...NUMERIC].filter(([, each]) => each === numeric).map(([metric]) => metric);

const NUMERIC: ReadonlyMap<number, number> = new Map([
  [60, 8],
  [65, 9],
  [70, 10],
  [75, 11],
  [80, 12],
  [85, 13],
  [90, 14],
  [95, 15],
  [100, 16],
  [105, 17],
  [110, 18],
  [120, 19],
  [125, 20],
  [130, 21],
  [140, 22],
  [150, 22],
  [160, 23],
  [170, 23],
  [180, 24],
  [200, 25],
  [230, 26],
  [250, 27],
]);
