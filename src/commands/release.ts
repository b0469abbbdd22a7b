import { chalkStderr } from 'chalk';
import { findHand } from '../app/find-hand.ts';
import { keptProcedure } from '../app/understood.ts';
import type { ProcedureId } from '../base/brand.ts';
import { oneLine } from '../base/text.ts';
import type { Command } from '../bundle/command.ts';
import { currentRelease, type Room } from '../bundle/room.ts';
import { isSameText } from '../bundle/same-text.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Difference } from '../procedure/difference.ts';
import { differences } from '../procedure/differences.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { differencesReport } from '../reports/changes-report.ts';
import { findingsReport } from '../reports/findings.ts';
import { findProcedure, onlyOne, type ProcedureFile } from '../storage/procedure-files.ts';
import { attemptSigned, barredFrom } from './attempt-signed.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, proseWidthOf, say, sayJson } from './io.ts';
import { atWork, type Decided, decidedLine, decideFates, type Fate, fatesOf, undecided } from './open-bundles.ts';
import { type NotReleasable, releasable, release } from './release-draft.ts';

interface ReleaseOptions extends RoomOption {
  readonly hand: string;
  readonly openBundles?: Fate;
  readonly json?: boolean;
}

/**
 * Freezes a draft and its pictures, by digest, as the next revision; says what changed, and has a supervisor decide of each bundle at
 * work whether it is finished on the older one. Refuses while the draft has errors. Of a text that is released already only the
 * bundles that are undecided are asked about: that is the way to go on after an interruption.
 */
export function releaseProcedure(named: string, options: ReleaseOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async (open) => {
    const { room, store, ledger } = open;
    const hand = findHand(ledger.room(), options.hand);
    if (!hand.ok) return cannot(io, hand.error.message);
    const found = findProcedure(room.folder, named);
    const draft = found.ok ? onlyOne(room.folder, found.value) : found;
    if (!draft.ok) return cannot(io, draft.error.message);
    const attempt = (command: Command) => attemptSigned(ledger, null, command, io);
    const place = { folder: room.folder, store, ledger, supervisors: room.settings.supervisors, attempt };
    const text = releasable(place, draft.value);
    if (text.outcome !== 'releasable') return notReleased(text, draft.value, io);
    const { id } = text.procedure;
    const isNew = !isSameText(currentRelease(ledger.room(), id), text.command);
    const barred = isNew ? await barredFrom(ledger, { ...text.command, hand: hand.value.id }) : undefined;
    if (barred) return cannot(io, barred.message);
    const changed = isNew ? await changedSince(store, ledger.room(), text.procedure) : [];
    if (!options.json && changed.length > 0) io.out(`${differencesReport(changed, proseWidthOf(io)).join('\n')}\n\n`);
    const fates = await fatesOf(isNew ? atWork(ledger, id) : undecided(ledger, id), options.openBundles, ledger, io);
    if (!fates.ok) return cannot(io, fates.error.message);
    if (isNew || fates.value.size === 0) {
      const released = await release(place, text, hand.value.id);
      if (!released.ok) return cannot(io, released.error.message);
      if (!options.json) say(io, releasedWords(open, id, hand.value.name));
    }
    const newest = currentRelease(ledger.room(), id);
    const reason = `${id} revision ${newest?.revision} is released`;
    const said = options.openBundles;
    const deciding = { fates: fates.value, said, procedure: id, hand: hand.value.id, reason };
    const decided = await decideFates(ledger, deciding, io);
    if (options.json)
      sayJson(io, { procedure: id, revision: newest?.revision, digest: newest?.digest, changed, bundles: decided });
    return saidFates(decided, options, io);
  });
}

function notReleased(why: NotReleasable, { name, text }: ProcedureFile, io: Io): ExitCode {
  if (why.outcome === 'refused') return cannot(io, why.refusal.message);
  io.err(findingsReport(why.findings, new Map([[name, text]]), chalkStderr));
  io.err(`Not released: mend the errors in ${oneLine(name)} first.\n`);
  return 1;
}

/** Lines for what was decided, on standard error where it could not be; exit 1 then. */
export function saidFates(decided: readonly Decided[], { json }: { readonly json?: boolean }, io: Io): ExitCode {
  if (!json) for (const each of decided) if (each.refused === undefined) say(io, decidedLine(each));
  for (const each of decided) if (each.refused !== undefined) cannot(io, decidedLine(each));
  return decided.some(({ refused }) => refused !== undefined) ? 1 : 0;
}

function releasedWords({ ledger }: PlayableRoom, procedure: ProcedureId, by: string): string {
  const revision = currentRelease(ledger.room(), procedure)?.revision;
  return `${procedure} revision ${revision} is released by ${by}. Bundles opened from now on are sewn by it.`;
}

/** What is new against the revision in use; nothing where there is none, or its text is lost. */
async function changedSince(store: LedgerStore, room: Room, draft: Procedure): Promise<readonly Difference[]> {
  const current = currentRelease(room, draft.id);
  const before = current && (await keptProcedure(store, current.understood));
  return before?.ok ? differences(before.value, draft) : [];
}
