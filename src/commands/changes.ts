import { readEntries } from '../app/read-entries.ts';
import { keptProcedure } from '../app/understood.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { emptyRoom, evolveRoom, type Release, releasesOf } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { differences } from '../procedure/differences.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { changesReport } from '../reports/changes-report.ts';
import { pastOf } from '../reports/past.ts';
import { wouldFail } from '../reports/would-fail.ts';
import { findProcedure } from '../storage/procedure-files.ts';
import { inRoom, type OpenRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, proseWidthOf, sayJson } from './io.ts';
import { readDraft } from './read-draft.ts';
import { ofTickets, textsOf } from './read-past.ts';

interface ChangesOptions extends RoomOption {
  readonly json?: boolean;
}

/**
 * What differs between two revisions of a procedure, or between one (the newest, unless said) and the draft; and which readings of past
 * bundles would be outside the newer limits. Exit 1 when there are such readings.
 */
export function changes(
  typed: string,
  from: string | undefined,
  to: string | undefined,
  options: ChangesOptions,
  io: Io,
): Promise<ExitCode> {
  return inRoom(options, io, async (open) => {
    const { store } = open;
    const room = (await readEntries(store, { kinds: ['enrolled', 'released', 'withdrawn'] })).reduce(
      evolveRoom,
      emptyRoom,
    );
    const id = named(room.releases.keys(), typed);
    if (id === undefined)
      return cannot(io, `No revision of ${typed} is released, so there is nothing to compare with.`);
    const before = await revision(store, releasesOf(room, id), from);
    if (!before.ok) return cannot(io, before.error.message);
    const after = to === undefined ? await draft(open, id) : await revision(store, releasesOf(room, id), to);
    if (!after.ok) return cannot(io, after.error.message);
    const entries = await ofTickets(store, 'ticketed', ({ kind, body }) =>
      kind === 'ticketed' && body.procedure === id ? body.ticket : undefined,
    );
    const { texts, lost } = await textsOf(store, entries);
    const found = differences(before.value.text, after.value.text);
    const failing = wouldFail(pastOf(entries, { room, texts }), after.value.text);
    const told = {
      procedure: id,
      from: before.value.name,
      to: after.value.name,
      differences: found,
      wouldFail: failing,
    };
    if (options.json) sayJson(io, told);
    else io.out(`${changesReport(told, room, proseWidthOf(io)).join('\n')}\n`);
    if (lost !== undefined) cannot(io, lost);
    return failing.length > 0 || lost !== undefined ? 1 : 0;
  });
}

/** A text to compare, and what it is called. */
interface Text {
  readonly name: string;
  readonly text: Procedure;
}

async function revision(
  store: LedgerStore,
  releases: readonly Release[],
  letter: string | undefined,
): Promise<Result<Text>> {
  const release =
    letter === undefined ? releases.at(-1) : releases.find((each) => each.revision === letter.trim().toUpperCase());
  if (!release)
    return refuse(
      'revision-unknown',
      `There is no revision ${letter}: there are ${releases.map((each) => each.revision).join(', ')}.`,
    );
  const text = await keptProcedure(store, release.understood);
  return text.ok ? ok({ name: `revision ${release.revision}`, text: text.value }) : text;
}

async function draft({ room }: OpenRoom, id: string): Promise<Result<Text>> {
  const file = findProcedure(room.folder, id);
  if (!file.ok) return file;
  const { procedure, findings } = readDraft(room.folder, file.value);
  const { name } = file.value;
  if (findings.some(({ severity }) => severity === 'error'))
    return refuse(
      'draft-errors',
      `${name} has errors, so not all of it is understood: \`walkfoot proofread ${name}\` says which.`,
    );
  return ok({ name: `the draft ${name}`, text: procedure });
}
