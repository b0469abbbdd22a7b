/** Smallest, middle and largest of several runs. */
export interface Spread {
  readonly least: number;
  readonly median: number;
  readonly most: number;
}

export function spread(runs: readonly number[]): Spread {
  const sorted = [...runs].sort((a, b) => a - b);
  return { least: sorted[0] ?? 0, median: percentile(sorted, 0.5), most: sorted.at(-1) ?? 0 };
}

/** The value below which this share of the sorted runs lies (nearest rank). */
export const percentile = (sorted: readonly number[], share: number): number =>
  sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0;

/** Runs two things in turn, A B A B, so that a machine that grows slower slows both; answers the ratios pair by pair. */
export async function inTurn(
  times: number,
  a: () => Promise<number> | number,
  b: () => Promise<number> | number,
): Promise<{ readonly a: Spread; readonly b: Spread; readonly ratio: Spread }> {
  const pairs: { readonly a: number; readonly b: number }[] = [];
  await a();
  await b();
  for (let i = 0; i < times; i++) pairs.push({ a: await a(), b: await b() });
  return {
    a: spread(pairs.map((pair) => pair.a)),
    b: spread(pairs.map((pair) => pair.b)),
    ratio: spread(pairs.map((pair) => pair.a / pair.b)),
  };
}

/** Milliseconds that `work` takes. */
export async function timed(work: () => Promise<unknown> | unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
