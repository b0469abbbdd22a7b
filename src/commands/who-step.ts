import { ok, type Result, refuse } from '../base/result.ts';
import { type Past, stepsOf } from '../reports/past.ts';

/** Refuses a step that these bundles do not have: an empty answer would look as if nobody had done it. */
export function stepIsThere(past: Past, step: number, ticket: string | undefined): Result<undefined> {
  const bundles = [...past.bundles.values()];
  const [bundle] = bundles;
  if (ticket !== undefined && bundle) {
    if (!bundle.text)
      return refuse('not-opened', `${bundle.ticket} has not been opened, so it has no steps yet: leave out --step.`);
    const { length } = stepsOf(past, bundle.ticket);
    if (length === 0)
      return refuse(
        'text-missing',
        `The text of ${bundle.ticket} is not in this ledger, so its steps have no numbers: bring back the ledger file it was released in.`,
      );
    return within(step, length, `${bundle.ticket} on ${bundle.procedure} revision ${bundle.text.revision} has`);
  }
  const longest = Math.max(0, ...bundles.map((each) => stepsOf(past, each.ticket).length));
  return longest === 0 ? ok(undefined) : within(step, longest, 'The longest procedure in this answer has');
}

/** Refuses a step beyond the last, or before the first. `has` is how the sentence begins. */
export function within(step: number, steps: number, has: string): Result<undefined> {
  if (step >= 1 && step <= steps) return ok(undefined);
  return refuse(
    'no-such-step',
    steps === 1
      ? `${has} only step 1, and no step ${step}.`
      : `${has} ${steps} steps, and no step ${step}: ask for one from 1 to ${steps}.`,
  );
}
