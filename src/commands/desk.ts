import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { type App, startApp } from '../app/app.ts';
import { deskRows, type Errand } from '../app/desk.ts';
import { headings, rowWords } from '../app/desk-words.ts';
import { performer, wholeBundles } from '../app/perform.ts';
import { type AppStore, startStore } from '../app/store.ts';
import { assertNever } from '../base/assert-never.ts';
import { refuse } from '../base/result.ts';
import { pad } from '../base/text.ts';
import { lockMinutes } from '../storage/settings.ts';
import { watchSaves } from '../storage/watch-saves.ts';
import { editFile } from './edit-file.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';
import { rehearse } from './rehearse.ts';
import { releaseProcedure } from './release.ts';
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
    if (options.json || options.plain || !isShown) return sayDesk(await start(open, io), options, io);
    let app = await start(open, io);
    for (let hand = options.hand; ; hand = undefined) {
      const { store, code } = await shown(app, hand, open, io);
      const { errand, hand: who, chosen, layer } = store.app();
      if (!errand) return code;
      const message = await run(errand, { ...options, hand: who ?? '' }, open, io);
      await open.ledger.catchUp();
      app = { ...(await start(open, io)), hand: who, chosen, layer, message };
    }
  });
}

async function start({ room, ledger }: PlayableRoom, io: Io): Promise<App> {
  const { name: roomName, station, settings } = room;
  const letters = settings.big ? 'big' : 'normal';
  const as = { purpose: 'record', home: 'desk', roomName, station, letters, bound: null } as const;
  const now = io.clock();
  const bundles = await wholeBundles(ledger);
  const drafts = await seeDrafts(room.folder, ledger);
  return {
    ...startApp({ ...as, now, room: ledger.room(), bundles, lockAfter: lockMinutes(settings) }),
    desk: { drafts },
  };
}

/** The screen until the desk is left, or gives the terminal away. */
async function shown(
  first: App,
  hand: string | undefined,
  { room, ledger }: PlayableRoom,
  io: Io,
): Promise<{ readonly store: AppStore; readonly code: number }> {
  let ring: () => void = () => {};
  const store: AppStore = startStore(
    first,
    io.clock,
    performer(
      ledger,
      () => ring(),
      () => store.app(),
      randomBytes,
    ),
  );
  if (hand !== undefined) store.tell({ news: 'sign on', who: hand });
  const trouble = (error: unknown): void => {
    const message = error instanceof Error ? error.message : String(error);
    const told = refuse('drafts-unreadable', message);
    if (!told.ok) store.tell({ news: 'refused', refusal: told.error });
  };
  const see = (): void =>
    void seeDrafts(room.folder, ledger).then((drafts) => store.tell({ news: 'drafts', drafts }), trouble);
  const stop = watchSaves([join(room.folder, 'procedures')], { saved: see, lost: trouble });
  try {
    const code = await showProgram({ store, io, onBell: (sound) => (ring = room.settings.bell ? sound : ring) });
    return { store, code };
  } finally {
    stop();
  }
}

/** Does what takes the whole terminal; answers what the desk says when it is back. */
async function run(
  { do: what, file }: Errand,
  options: DeskOptions & { readonly hand: string },
  { room }: PlayableRoom,
  io: Io,
): Promise<App['message']> {
  const path = join(room.folder, file);
  const { room: folder } = options;
  const where = folder === undefined ? {} : { room: folder };
  switch (what) {
    case 'edit': {
      const edited = await editFile(path, io);
      return edited.ok ? null : { tone: 'refusal', text: edited.error.message };
    }
    case 'rehearse':
      await rehearse(path, where, io);
      return { tone: 'plain', text: 'The rehearsal is over; nothing was recorded.' };
    case 'release':
      await releaseProcedure(path, { ...where, hand: options.hand }, io);
      await enter(io);
      return null;
    default:
      return assertNever(what);
  }
}

/** What was said stays on the terminal until it is read. */
async function enter(io: Io): Promise<void> {
  const lines = createInterface({ input: io.stdin });
  io.err('Press enter to go back to the desk. ');
  await Promise.race([lines[Symbol.asyncIterator]().next(), new Promise((resolve) => lines.once('close', resolve))]);
  lines.close();
}

function sayDesk(app: App, { json }: DeskOptions, io: Io): ExitCode {
  const rows = deskRows(app);
  const told = rows.map((row) => ({ kind: row.row, ...rowWords(app, row) }));
  if (json) sayJson(io, told);
  else if (told.length === 0) cannot(io, 'There is nothing on the desk: put a procedure into procedures/.');
  else
    for (const [index, { kind, name, about, state }] of told.entries()) {
      if (kind !== told[index - 1]?.kind) say(io, headings[kind]);
      say(io, `  ${pad(name, 10)}  ${about} · ${state}`);
    }
  return rows.some(({ row }) => row === 'hold') ? 1 : 0;
}
