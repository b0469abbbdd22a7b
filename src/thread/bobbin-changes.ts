import type Fraction from 'fraction.js';

/** A step as it comes in the order of the work, with the bobbin thread it takes, mm. */
export interface Sewn<Place> {
  readonly place: Place;
  /** What is done without a break in between: a set, where work goes set by set. */
  readonly stretch: number | null;
  readonly takes: Fraction;
}

/** Where fresh bobbins go in; mm. */
export interface BobbinChange<Place> {
  readonly place: Place;
  /**
   * `stretch`: the whole set fits a full bobbin and not what is left, so it is changed before the set. `step`: the step does not fit what is
   * left, so it is changed before the step. `within`: the step takes more than a full bobbin, so it is changed between its seams.
   */
  readonly because: 'stretch' | 'step' | 'within';
  /** One, but where a step takes several. */
  readonly bobbins: number;
  readonly left: Fraction;
  readonly takes: Fraction;
}

/**
 * Where bobbins change, so that no step begins on one that ends within it. A step that takes more than a full bobbin begins on a full one.
 * `full`, above 0, and `left`, what is on the bobbin in the machine at the beginning, in mm.
 */
export function bobbinChanges<Place>(
  work: readonly Sewn<Place>[],
  full: Fraction,
  left: Fraction,
): { readonly changes: readonly BobbinChange<Place>[]; readonly left: Fraction } {
  const changes: BobbinChange<Place>[] = [];
  let rest = left;
  for (const [at, { place, stretch, takes }] of work.entries()) {
    const begins = at === 0 || work[at - 1]?.stretch !== stretch;
    const whole = stretch === null ? takes : stretchFrom(work, at);
    const isForStretch = begins && whole.gt(rest) && whole.lte(full);
    if (isForStretch || (takes.gt(rest) && rest.lt(full))) {
      const because = isForStretch ? 'stretch' : 'step';
      changes.push({ place, because, bobbins: 1, left: rest, takes: isForStretch ? whole : takes });
      rest = full;
    }
    const bobbins = takes.gt(rest) ? Number(takes.sub(rest).div(full).ceil().valueOf()) : 0;
    if (bobbins > 0) changes.push({ place, because: 'within', bobbins, left: rest, takes });
    rest = rest.add(full.mul(bobbins)).sub(takes);
  }
  return { changes, left: rest };
}

function stretchFrom<Place>(work: readonly Sewn<Place>[], from: number): Fraction {
  const [first, ...others] = work.slice(from);
  if (!first) throw new Error('a stretch begins at a step');
  const end = others.findIndex(({ stretch }) => stretch !== first.stretch);
  return others.slice(0, end < 0 ? others.length : end).reduce((sum, { takes }) => sum.add(takes), first.takes);
}
