import { chalkStderr } from 'chalk';
import { findHand } from '../app/find-hand.ts';
import { assertNever } from '../base/assert-never.ts';
import { oneLine } from '../base/text.ts';
import type { Command } from '../bundle/command.ts';
import { findingsReport } from '../reports/findings.ts';
import { findProcedure } from '../storage/procedure-files.ts';
import { attemptSigned } from './attempt-signed.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';
import { releaseDraft } from './release-draft.ts';

interface ReleaseOptions extends RoomOption {
  readonly hand: string;
  readonly json?: boolean;
}

/** Freezes a draft and its pictures, by digest, as the next revision; refuses while the draft has errors. */
export function releaseProcedure(named: string, options: ReleaseOptions, io: Io): Promise<ExitCode> {
  return onLedger(options, io, async ({ room, store, ledger }) => {
    const hand = findHand(ledger.room(), options.hand);
    if (!hand.ok) return cannot(io, hand.error.message);
    const draft = findProcedure(room.folder, named);
    if (!draft.ok) return cannot(io, draft.error.message);
    const attempt = (command: Command) => attemptSigned(ledger, null, command, io);
    const released = await releaseDraft({ folder: room.folder, store, attempt }, draft.value, hand.value.id);
    switch (released.outcome) {
      case 'errors': {
        const { name, text } = draft.value;
        io.err(findingsReport(released.findings, new Map([[name, text]]), chalkStderr));
        io.err(`Not released: mend the errors in ${oneLine(name)} first.\n`);
        return 1;
      }
      case 'refused':
        return cannot(io, released.refusal.message);
      case 'released': {
        const { procedure, revision, digest } = released;
        if (options.json) sayJson(io, { procedure, revision, digest });
        else
          say(
            io,
            `${procedure} revision ${revision} is released by ${hand.value.name}. Bundles opened from now on are sewn by it.`,
          );
        return 0;
      }
      default:
        return assertNever(released);
    }
  });
}
