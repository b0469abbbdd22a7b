import { type Result, refuse } from '../base/result.ts';
import { noRelease } from './barred.ts';
import type { Command } from './command.ts';
import { decideAtPoint } from './decide-at-point.ts';
import { decideBobbin } from './decide-bobbin.ts';
import { decideBundle } from './decide-bundle.ts';
import { decideHold } from './decide-hold.ts';
import { decideKeptOn } from './decide-kept-on.ts';
import { decidePeople } from './decide-people.ts';
import { decidePrint } from './decide-print.ts';
import { decideRoom } from './decide-room.ts';
import type { EntryDraft } from './entries.ts';
import { neverOnPaper, notOnPaper } from './from-paper.ts';
import { signed } from './signature.ts';
import type { BundleSituation, Situation } from './situation.ts';

/**
 * Whether a command may happen, and the entries it then leaves behind. Pure: nothing has happened until they are in the
 * ledger. A refusal is one plain sentence that says what to do instead.
 */
export function decide(situation: Situation, command: Command): Result<readonly EntryDraft[]> {
  const decided = unsigned(command.paper ? { ...situation, paper: command.paper } : situation, command);
  return decided.ok ? signed(situation, command, decided.value) : decided;
}

/** The same, but for the PIN of whoever signs. */
function unsigned(situation: Situation, command: Command): Result<readonly EntryDraft[]> {
  const never = neverOnPaper(command);
  if (never) return never;
  switch (command.do) {
    case 'enrol':
    case 'retire':
    case 'take key':
    case 'release':
    case 'withdraw':
    case 'make ticket':
    case 'sign on':
    case 'check gauge':
      return decideRoom(situation, command);
    case 'set pin':
    case 'fail pin':
    case 'set skill':
    case 'set language':
      return decidePeople(situation, command);
    default:
  }
  if (!situation.bundle)
    return refuse('ticket-unknown', 'There is no such ticket: look at its label, or make one with `walkfoot ticket`.');
  if (!hasText(situation)) return noRelease(situation.bundle.procedure);
  if (situation.bundle.work === 'finished')
    return refuse('finished', '{ticket} is finished and stays as it is: make a new ticket for more work.', {
      ticket: situation.bundle.ticket,
    });
  const stays = notOnPaper(situation, command);
  if (stays) return stays;
  switch (command.do) {
    case 'fit bobbin':
    case 'use thread':
      return decideBobbin(situation, command);
    case 'keep on':
      return decideKeptOn(situation, command);
    case 'print':
      return decidePrint(situation, command);
    case 'hold':
    case 'settle':
      return decideHold(situation, command);
    case 'read caution':
    case 'help':
    case 'start clock':
    case 'check':
    case 'go back':
      return decideAtPoint(situation, command);
    default:
      return decideBundle(situation, command);
  }
}

const hasText = (situation: Situation): situation is BundleSituation =>
  situation.bundle !== undefined && situation.procedure !== undefined;
