import { join } from 'node:path';
import { type App, startApp } from '../app/app.ts';
import { type Desk, type DeskRow, deskRows, type Errand, rowAt } from '../app/desk.ts';
import { headings, rowWords } from '../app/desk-words.ts';
import { isLockDue, locked } from '../app/lock.ts';
import { wholeBundles } from '../app/perform.ts';
import { languageOf, speak, why } from '../app/speak.ts';
import type { AppStore } from '../app/store.ts';
import { assertNever } from '../base/assert-never.ts';
import { refuse } from '../base/result.ts';
import { pad } from '../base/text.ts';
import { pictureFolders } from '../storage/picture-files.ts';
import { watchSaves } from '../storage/watch-saves.ts';
import { asRoomSays } from './as-room-says.ts';
import { asker } from './asker.ts';
import { editFiles } from './edit-files.ts';
import { keptPictures } from './find-picture.ts';
import { followPictures } from './follow-pictures.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { type ExitCode, type Io, say, sayJson } from './io.ts';
import { type Proofreader, patientProofreader } from './read-draft.ts';
import { rehearse } from './rehearse.ts';
import { releaseProcedure } from './release.ts';
import { roomStore } from './room-store.ts';
import { seeDrafts } from './see-drafts.ts';
import { showProgram } from './show.tsx';

interface DeskOptions extends RoomOption {
  readonly hand?: string;
  readonly plain?: boolean;
  readonly json?: boolean;
}

/**
 * A supervisor's desk: what waits, what is at work, what is written. On a terminal a screen, from which drafts are edited, rehearsed,
 * compared and released and holds are settled; with `--plain`, `--json` and into a pipe the same list once. Exit 1 there while a hold waits.
 */
export function desk(options: DeskOptions, io: Io): Promise<number> {
  return onLedger<number>(options, io, async (open) => {
    const isShown = io.stdout.isTTY && io.stdin.isTTY && (io.env.TERM ?? 'dumb') !== 'dumb';
    if (options.json || options.plain || !isShown)
      return sayDesk(await start(open, patientProofreader(), io), options, io);
    const proof = patientProofreader();
    let app: App = await start(open, proof, io);
    for (let hand = options.hand; ; hand = undefined) {
      const { store, code } = await shown(app, hand, open, proof, io);
      const { errand, hand: who, chosen, layer, words, desk: seen } = store.app();
      if (!errand) return code;
      const left = io.clock().ms;
      const message = await run(errand, { ...options, hand: who ?? '' }, open, store.app(), io);
      await open.ledger.catchUp();
      const begun = await start(open, proof, io);
      const again = { ...begun, hand: who, words, chosen, layer, message, desk: { ...seen, ...begun.desk } };
      const back = { ...again, chosen: rowAt(again) };
      // Nobody touched the desk while the editor had the terminal: whoever sits there now says who they are.
      app = isLockDue({ ...back, touchedMs: left }, io.clock()) ? locked(back) : back;
    }
  });
}

async function start(
  { room, ledger }: PlayableRoom,
  proof: Proofreader,
  io: Io,
): Promise<App & { readonly desk: Desk }> {
  const as = { purpose: 'record', home: 'desk', bound: null, ...(await asRoomSays(room)) } as const;
  const now = io.clock();
  const bundles = await wholeBundles(ledger);
  const drafts = await seeDrafts(room.folder, ledger, proof);
  return {
    ...startApp({ ...as, now, room: ledger.room(), bundles }),
    desk: { drafts },
  };
}

/** The screen until the desk is left, or gives the terminal away. */
async function shown(
  first: App,
  hand: string | undefined,
  { room, ledger, store: kept }: PlayableRoom,
  proof: Proofreader,
  io: Io,
): Promise<{ readonly store: AppStore; readonly code: number }> {
  let ring: () => void = () => {};
  const store = roomStore({ ledger, ring: () => ring() }, first, io);
  const following = followPictures(store, keptPictures(kept));
  if (hand !== undefined) store.tell({ news: 'sign on', who: hand });
  const trouble = (error: unknown): void => {
    const message = error instanceof Error ? error.message : String(error);
    const told = refuse('drafts-unreadable', message);
    if (!told.ok) store.tell({ news: 'refused', refusal: told.error });
  };
  let turn = Promise.resolve();
  // One after another: an older reading must not come in behind a newer one.
  const see = (): void => {
    turn = turn
      .then(() => seeDrafts(room.folder, ledger, proof))
      .catch((error: unknown) => {
        trouble(error);
        return [];
      })
      .then((drafts) => store.tell({ news: 'drafts', drafts }));
  };
  // What another station releases changes how the drafts stand beside it.
  let { releases } = first.room;
  const unsubscribe = store.subscribe(() => {
    const now = store.app().room.releases;
    if (now === releases) return;
    releases = now;
    see();
  });
  const stop = watchSaves([join(room.folder, 'procedures'), ...pictureFolders(room.folder)], {
    saved: see,
    lost: (gone) => {
      see();
      turn = turn.then(() => trouble(gone));
    },
  });
  try {
    const code = await showProgram({ store, io, onBell: (sound) => (ring = room.settings.bell ? sound : ring) });
    return { store, code };
  } finally {
    unsubscribe();
    following.stop();
    stop();
  }
}

/** Does what takes the whole terminal; answers what the desk says when it is back. */
async function run(
  errand: Errand,
  options: DeskOptions & { readonly hand: string },
  { room }: PlayableRoom,
  now: Pick<App, 'words' | 'hand' | 'room' | 'language'>,
  io: Io,
): Promise<App['message']> {
  const { room: folder } = options;
  const where = folder === undefined ? {} : { room: folder };
  switch (errand.do) {
    case 'edit': {
      const edited = await editFiles(
        errand.files.map((file) => join(room.folder, file)),
        io,
      );
      return edited.ok ? null : { tone: 'refusal', text: why(now, edited.error) };
    }
    case 'rehearse':
      await rehearse(join(room.folder, errand.file), { ...where, language: languageOf(now, now.hand) }, io);
      return { tone: 'plain', text: speak(now)('The rehearsal is over; nothing was recorded.') };
    case 'release':
      await releaseProcedure(join(room.folder, errand.file), { ...where, hand: options.hand }, io);
      await enter(io);
      return null;
    default:
      return assertNever(errand);
  }
}

/** What was said stays on the terminal until it is read. */
async function enter(io: Io): Promise<void> {
  const asking = asker(io, 'unseen');
  await asking.ask('Press enter to go back to the desk');
  asking.close();
}

function sayDesk(app: App, { json }: DeskOptions, io: Io): ExitCode {
  const rows = deskRows(app);
  if (json) sayJson(io, rows.map(asData));
  else if (rows.length === 0) say(io, 'There is nothing on the desk: put a procedure into procedures/.');
  else
    for (const [index, row] of rows.entries()) {
      const { name, about, state } = rowWords(app, row);
      if (row.row !== rows[index - 1]?.row) say(io, headings[row.row]);
      say(io, `  ${pad(name, 10)}  ${about} · ${state}`);
    }
  return rows.some(({ row }) => row === 'hold') ? 1 : 0;
}

/** A row for programs. */
function asData(row: DeskRow) {
  if (row.row === 'draft') {
    const { file, procedure, revision, withdrawn, isReleased, findings, changes } = row.draft;
    const count = (of: string): number => findings.filter(({ severity }) => severity === of).length;
    const { id, title } = procedure;
    const released = { revision, withdrawn, isReleased, changes: changes.length };
    return {
      kind: row.row,
      file,
      procedure: id,
      title,
      ...released,
      errors: count('error'),
      warnings: count('warning'),
    };
  }
  const { ticket, procedure, text, work, hand, lastAt } = row.bundle;
  const bundle = { kind: row.row, ticket, procedure, revision: text?.revision ?? null, work, hand, lastAt };
  if (row.row === 'bundle') return bundle;
  const { name, reason, by, at, set, step } = row.hold;
  return { ...bundle, hold: { name, reason, by, at, set, step } };
}
