import type Fraction from 'fraction.js';

/** A step as it comes in the order of the work, with the bobbin thread it takes, mm. */
export interface Sewn<Place> {
  readonly place: Place;
  /** What is done without a break in between: a set, where work goes set by set. */
  readonly stretch: number | null;
  readonly takes: Fraction;
}

/** Where a fresh bobbin goes in, before a step is begun; mm. */
export interface BobbinChange<Place> {
  readonly before: Place;
  /** `stretch`: the whole set fits a full bobbin and not what is left, so it is changed between sets. `step`: the step does not fit what is left. */
  readonly because: 'stretch' | 'step';
  readonly left: Fraction;
  readonly takes: Fraction;
}

/**
 * Where bobbins change, so that no step begins on one that ends within it. A step that takes more than a full bobbin begins on a full one.
 * `full` and `left`, what is on the bobbin in the machine at the beginning, in mm.
 */
export function bobbinChanges<Place>(
  work: readonly Sewn<Place>[],
  full: Fraction,
  left: Fraction,
): { readonly changes: readonly BobbinChange<Place>[]; readonly left: Fraction } {
  const changes: BobbinChange<Place>[] = [];
  let rest = left;
  const change = (before: Place, because: 'stretch' | 'step', takes: Fraction): void => {
    changes.push({ before, because, left: rest, takes });
    rest = full;
  };
  for (const [at, { place, stretch, takes }] of work.entries()) {
    const begins = at === 0 || work[at - 1]?.stretch !== stretch;
    const whole = stretch === null ? takes : stretchFrom(work, at);
    if (begins && whole.gt(rest) && whole.lte(full)) change(place, 'stretch', whole);
    else if (takes.gt(rest) && rest.lt(full)) change(place, 'step', takes);
    // What does not fit a full bobbin is changed within the step, between two of its seams.
    rest = takes.gt(rest) ? afterSeveral(takes, rest, full) : rest.sub(takes);
  }
  return { changes, left: rest };
}

function stretchFrom<Place>(work: readonly Sewn<Place>[], from: number): Fraction {
  const [first, ...others] = work.slice(from);
  if (!first) throw new Error('a stretch begins at a step');
  const end = others.findIndex(({ stretch }) => stretch !== first.stretch);
  return others.slice(0, end < 0 ? others.length : end).reduce((sum, { takes }) => sum.add(takes), first.takes);
}

/** Left on the last of the bobbins that such a step takes. */
function afterSeveral(takes: Fraction, left: Fraction, full: Fraction): Fraction {
  const short = takes.sub(left);
  const more = short.div(full).ceil();
  return left.add(full.mul(more)).sub(takes);
}
