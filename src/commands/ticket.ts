import type { ProcedureId, TicketId } from '../base/brand.ts';
import { many } from '../base/many.ts';
import { currentRelease } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { whoActs } from './hand.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';

interface TicketOptions extends RoomOption {
  readonly sets?: string;
  readonly roll?: readonly string[];
  readonly name?: string;
  readonly hand?: string;
  readonly json?: boolean;
}

/** Makes a ticket for a new bundle of a released procedure, with the next free number unless it is given a name. */
export function makeTicket(procedure: string, options: TicketOptions, io: Io): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const by = whoActs(options.hand, ledger.room());
    if (!by.ok) return cannot(io, by.error.message);
    const id = known(procedure, [...ledger.room().releases.keys()]);
    const ticket = (options.name ?? nextTicket(ledger.bundles().map((bundle) => bundle.ticket))) as TicketId;
    const sets = await setsOf(options.sets);
    if (sets === undefined) return cannot(io, `--sets takes a whole number, not ${options.sets}.`);
    const done = await ledger.attempt(ticket, {
      do: 'make ticket',
      hand: by.value,
      ticket,
      procedure: id,
      sets,
      rolls: options.roll ?? [],
    });
    if (!done.ok) return cannot(io, done.error.message);
    const [made] = done.value.entries;
    if (options.json) sayJson(io, made?.body);
    else
      say(
        io,
        `${ticket}: ${id}, ${many(sets, 'set')}. Play it with \`walkfoot sew ${ticket}${options.room ? ` --room ${options.room}` : ''}\`.`,
      );
    return 0;

    /** As said, or as many as the current revision says. */
    async function setsOf(said: string | undefined): Promise<number | undefined> {
      if (said !== undefined) return /^\d{1,3}$/.test(said) ? Number(said) : undefined;
      const understood = currentRelease(ledger.room(), id)?.understood;
      const text = understood && (await ledger.procedure(understood));
      return text?.ok ? text.value.sets : 1;
    }
  });
}

const known = (typed: string, released: readonly ProcedureId[]): ProcedureId =>
  named(released, typed) ?? (typed as ProcedureId);

function nextTicket(taken: readonly string[]): string {
  const numbers = taken.map((ticket) => Number(/^B-(\d{1,9})$/.exec(ticket)?.[1] ?? 0));
  return `B-${Math.max(1000, ...numbers) + 1}`;
}
