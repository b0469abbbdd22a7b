import type { HandId, ProcedureId, TicketId } from '../base/brand.ts';
import { type Result, refuse } from '../base/result.ts';
import type { Bundle } from './bundle.ts';
import type { Next } from './next.ts';

/** Why this hand can't go on with the work as it stands, whatever it wants to do; undefined when it can. */
export function barred(bundle: Bundle, hand: HandId, wanted: Next): Result<never> | undefined {
  if (wanted.want === 'opening') return notOpened(bundle);
  if (wanted.want === 'settling') return onHold(bundle, wanted.hold.name);
  if (wanted.want === 'changes')
    return refuse('changes-first', 'The procedure has changed since you last sewed it: read the changes first.');
  return notAtWork(bundle, hand);
}

/** A refusal when this hand does not have the bundle open. */
export function notAtWork(bundle: Bundle, hand: HandId): Result<never> | undefined {
  if (bundle.work === 'open' && bundle.hand === hand) return undefined;
  return refuse('not-at-work', 'You do not have {ticket} in hand: take it up first.', { ticket: bundle.ticket });
}

export const onHold = (bundle: Bundle, hold: string): Result<never> =>
  refuse('on-hold', '{ticket} is on hold ({hold}): a supervisor settles it first.', { ticket: bundle.ticket, hold });

export const notOnHold = (ticket: TicketId) => refuse('no-such-hold', '{ticket} is not on hold: go on.', { ticket });

export const notOpened = (bundle: Bundle): Result<never> =>
  refuse('not-opened', '{ticket} has not been opened yet: open it first.', { ticket: bundle.ticket });

export const noRelease = (procedure: ProcedureId): Result<never> =>
  refuse(
    'no-release',
    'No revision of {procedure} is in use: a supervisor releases one with `walkfoot release {procedure}`.',
    { procedure },
  );

export const noReleaseThen = (procedure: ProcedureId, stamp: string): Result<never> =>
  refuse('no-release', 'No revision of {procedure} was in use at {time}: look at the time on the paper.', {
    procedure,
    time: stamp.slice(0, 16).replace('T', ' '),
  });
