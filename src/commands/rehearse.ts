import { chalkStderr } from 'chalk';
import { carryOn, REHEARSAL, REHEARSING, type RehearsalClock, rehearsalClock, rehearsalOf } from '../app/rehearsal.ts';
import type { RoomLedger } from '../app/room-ledger.ts';
import type { AppStore } from '../app/store.ts';
import type { Finding } from '../base/finding.ts';
import { type Language, sheetLanguage } from '../base/language.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { nameInside } from '../storage/name-inside.ts';
import { pictureFolders } from '../storage/picture-files.ts';
import { findProcedure, type ProcedureFile, readProcedure as readFile } from '../storage/procedure-files.ts';
import { openRoomFolder, roomAround } from '../storage/room-folder.ts';
import { watchSaves } from '../storage/watch-saves.ts';
import { speaking } from './as-room-says.ts';
import { picturesInFolder } from './find-picture.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { runSession, type SessionOptions } from './session.ts';
import { stationThread } from './station-thread.ts';

interface RehearseOptions extends RoomOption, Pick<SessionOptions, 'plain'> {
  readonly watch?: boolean;
  /** What the screen speaks, where the file is not a sheet in a language of its own; English unless given. */
  readonly language?: Language;
}

/**
 * Plays a draft as the sewer will see it, on a ledger that lives only as long as the rehearsal: nothing is recorded. With `--watch` each
 * save goes on in the new text at the step where the old one stood; a save with errors is told, and the last good text stays.
 */
export async function rehearse(named: string, options: RehearseOptions, io: Io): Promise<number> {
  const found = findProcedure(folderOf(options, io), named);
  if (!found.ok) return cannot(io, found.error.message);
  // Pictures and settings are those of the room the file lies in, wherever the rehearsal was called.
  const room = roomAround(found.value.path);
  const folder = room ?? folderOf(options, io);
  const draft = { ...found.value, name: nameInside(folder, found.value.path) ?? found.value.name };
  if (options.watch && !(io.stdout.isTTY && io.stdin.isTTY && !options.plain))
    return cannot(io, 'Only a screen can follow the saves of a file: leave --watch away, or rehearse at a terminal.');
  const { text, name } = draft;
  const { procedure, findings } = readProcedure(text, name);
  if (findings.some(isError)) {
    io.err(findingsReport(findings, new Map([[name, text]]), chalkStderr));
    io.err('A draft with errors can’t be rehearsed: mend them first.\n');
    return 1;
  }
  const clock = rehearsalClock(io.clock);
  const live = swappable(await rehearsalOf(draft, procedure, clock.now));
  const as = {
    purpose: 'rehearse',
    home: 'out',
    roomName: 'Rehearsal',
    station: 'rehearsal',
    letters: 'normal',
    bound: REHEARSAL,
    lockAfter: null,
    ...(await speaking(sheetLanguage(name) ?? options.language ?? 'en')),
  } as const;
  const meanwhile = options.watch
    ? (store: AppStore) => follow(store, live, { folder, file: draft, clock })
    : undefined;
  const pictures = picturesInFolder(folder, name);
  const thread = room ? { thread: stationThread((await openRoomFolder(room)).settings, pictures) } : {};
  const session = {
    ...options,
    hand: REHEARSING,
    bell: 'rings',
    pictures,
    ...thread,
    ...(meanwhile ? { meanwhile } : {}),
  } as const;
  return runSession(live.ledger, as, session, { ...io, clock: clock.now });
}

const isError = ({ severity }: Finding): boolean => severity === 'error';

interface Followed {
  readonly folder: string;
  readonly file: ProcedureFile;
  readonly clock: RehearsalClock;
}

/** Goes on in each text that is saved, until the answer is called. */
function follow(store: AppStore, live: Swappable, { folder, file, clock }: Followed): () => void {
  let turn = Promise.resolve();
  const told = (message: string): void => {
    const refused = refuse('not-followed', message);
    if (!refused.ok) store.tell({ news: 'refused', refusal: refused.error });
  };
  const saved = async (): Promise<void> => {
    const read = readFile(folder, file.path);
    const text = read.ok ? goodText(read.value) : read;
    if (!text.ok || !read.ok) return told(text.ok ? 'The file cannot be read.' : text.error.message);
    await store.settled();
    const fresh = await rehearsalOf(read.value, text.value, clock.now);
    await carryOn(live.ledger, fresh, clock);
    live.swap(fresh);
    const playing = await fresh.playing(REHEARSAL);
    if (playing.ok)
      store.tell({ news: 'taken', room: fresh.room(), playing: playing.value, bundles: fresh.bundles(), changes: [] });
  };
  return watchSaves([file.path, ...pictureFolders(folder)], {
    // One after another: an older text must not come in behind a newer one.
    saved: () => {
      turn = turn.then(saved).catch((error: unknown) => told(error instanceof Error ? error.message : String(error)));
    },
    lost: (trouble) => told(trouble.message),
  });
}

function goodText({ text, name }: ProcedureFile): Result<Procedure> {
  const { procedure, findings } = readProcedure(text, name);
  const wrong = findings.find(isError);
  return wrong === undefined
    ? ok(procedure)
    : refuse('not-followed', `Saved with an error, so the text before it stays. Line ${wrong.line}: ${wrong.message}`);
}

interface Swappable {
  readonly ledger: RoomLedger;
  readonly swap: (next: RoomLedger) => void;
}

/** A ledger in whose place another can be put while somebody plays on it. */
function swappable(first: RoomLedger): Swappable {
  let now = first;
  return {
    ledger: {
      room: () => now.room(),
      bundles: () => now.bundles(),
      ticketNamed: (typed) => now.ticketNamed(typed),
      catchUp: () => now.catchUp(),
      playing: (ticket) => now.playing(ticket),
      attempt: (ticket, command, proof) => now.attempt(ticket, command, proof),
      signature: (ticket, command) => now.signature(ticket, command),
      key: () => now.key(),
      procedure: (understood) => now.procedure(understood),
    },
    swap: (next) => {
      now = next;
    },
  };
}
