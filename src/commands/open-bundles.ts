import type { RoomLedger } from '../app/room-ledger.ts';
import { assertNever } from '../base/assert-never.ts';
import type { HandId, ProcedureId, TicketId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { oneLine, wrap } from '../base/text.ts';
import { isBehind } from '../bundle/behind.ts';
import { type Bundle, openHold } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import { type Asker, asker } from './asker.ts';
import { type Io, proseWidthOf } from './io.ts';

/** What becomes of a bundle whose revision is no longer in use: it is finished on it all the same, or held until it is settled. */
export type Fate = 'finish' | 'hold';
export type Fates = ReadonlyMap<TicketId, Fate>;

/** A bundle's fate, and why it could not be so: it may have been finished meanwhile. Null when nobody said one. */
export interface Decided {
  readonly ticket: TicketId;
  readonly fate: Fate | null;
  readonly refused?: string;
}

/** Bundles of a procedure that somebody has begun and that nothing stops; oldest first. */
export const atWork = (ledger: RoomLedger, procedure: ProcedureId): readonly Bundle[] =>
  ledger
    .bundles()
    .filter(
      (bundle) => bundle.procedure === procedure && bundle.text && bundle.work !== 'finished' && !openHold(bundle),
    );

/** Those of them whose revision is no longer in use, and of which nobody has said yet what becomes of them. */
export const undecided = (ledger: RoomLedger, procedure: ProcedureId): readonly Bundle[] =>
  atWork(ledger, procedure).filter((bundle) => isBehind(ledger.room(), bundle));

/**
 * What a supervisor says of each of these bundles: `said` of all of them, or asked one by one at the terminal. Refuses where nothing was
 * said and nobody can be asked, or whoever is asked lets it be.
 */
export async function fatesOf(
  bundles: readonly Bundle[],
  said: Fate | undefined,
  ledger: RoomLedger,
  io: Io,
): Promise<Result<Fates>> {
  if (said !== undefined || bundles.length === 0)
    return ok(new Map(bundles.map(({ ticket }) => [ticket, said ?? 'finish'])));
  const names = bundles.map(({ ticket }) => ticket).join(', ');
  if (!io.stdin.isTTY)
    return refuse(
      'open-bundles',
      `${names}: begun on an older revision. Say what becomes of them with --open-bundles finish or --open-bundles hold.`,
    );
  const asking = asker(io, 'seen');
  const fates = new Map<TicketId, Fate>();
  try {
    for (const bundle of bundles) {
      const fate = await asked(bundle, ledger, asking, io);
      if (fate === undefined)
        return refuse('open-bundles', `Nothing was done: say of each of ${names} whether it is finished or held.`);
      fates.set(bundle.ticket, fate);
    }
    return ok(fates);
  } finally {
    asking.close();
  }
}

async function asked(
  { ticket, text, hand }: Bundle,
  ledger: RoomLedger,
  asking: Asker,
  io: Io,
): Promise<Fate | undefined> {
  const whose = hand === null ? '' : `, with ${nameOf(ledger.room(), hand)}`;
  const question = `${ticket} is at work on revision ${text?.revision}${whose}. Finish it on that, or hold it?`;
  for (const row of wrap(oneLine(question), proseWidthOf(io))) io.err(`${row}\n`);
  for (;;) {
    const word = (await asking.ask('finish, hold or never mind'))?.trim().toLowerCase();
    if (word === undefined) return undefined;
    const said = (['finish', 'hold', 'never mind'] as const).find((known) => word !== '' && known.startsWith(word));
    if (said) return said === 'never mind' ? undefined : said;
    io.err('Type finish or hold; never mind ends it, and nothing is done.\n');
  }
}

interface Deciding {
  readonly fates: Fates;
  /** Of all bundles, where that was said with the command. */
  readonly said: Fate | undefined;
  readonly procedure: ProcedureId;
  /** Only bundles on this one are concerned. */
  readonly revision?: string;
  readonly hand: HandId;
  /** Why a bundle is held. */
  readonly reason: string;
}

/**
 * Records what was said of each bundle, and then of each that was begun on the old text while that was being said and signed. What can't
 * be so any more is among the answers, too; so is a bundle of which nothing was said.
 */
export async function decideFates(ledger: RoomLedger, deciding: Deciding, io: Io): Promise<readonly Decided[]> {
  const decided = await recordFates(ledger, deciding);
  for (;;) {
    await ledger.catchUp();
    const { procedure, revision } = deciding;
    const late = undecided(ledger, procedure)
      .filter(({ text }) => revision === undefined || text?.revision === revision)
      .filter((bundle) => !decided.some(isOf(bundle)));
    if (late.length === 0) return decided;
    const fates = await fatesOf(late, deciding.said, ledger, io);
    if (!fates.ok)
      return [...decided, ...late.map(({ ticket }) => ({ ticket, fate: null, refused: fates.error.message }))];
    decided.push(...(await recordFates(ledger, { ...deciding, fates: fates.value })));
  }
}

const isOf =
  ({ ticket }: Bundle) =>
  (each: Decided): boolean =>
    each.ticket === ticket;

async function recordFates(
  ledger: RoomLedger,
  { fates, hand, reason }: Pick<Deciding, 'fates' | 'hand' | 'reason'>,
): Promise<Decided[]> {
  const decided: Decided[] = [];
  for (const [ticket, fate] of fates) {
    const done = await ledger.attempt(
      ticket,
      fate === 'hold' ? { do: 'hold', hand, about: 'bundle', reason } : { do: 'keep on', hand },
    );
    decided.push({ ticket, fate, ...(done.ok ? {} : { refused: done.error.message }) });
  }
  return decided;
}

/** What became of a bundle, on one line. */
export function decidedLine({ ticket, fate, refused }: Decided): string {
  if (refused !== undefined || fate === null) return `${ticket}: ${refused ?? 'nothing was said of it.'}`;
  switch (fate) {
    case 'finish':
      return `${ticket} is to be finished on the revision it was opened with.`;
    case 'hold':
      return `${ticket} is on hold until a supervisor settles it.`;
    default:
      return assertNever(fate);
  }
}
