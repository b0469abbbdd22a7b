import type { ProcedureId, TicketId } from '../base/brand.ts';
import { currentRelease } from '../bundle/room.ts';
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
    if (!/^[\p{L}\p{N}][\p{L}\p{N}._-]{0,39}$/u.test(ticket))
      return cannot(io, 'A ticket is named by up to 40 letters, digits, dots and hyphens, such as B-1041.');
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
    if (options.json) sayJson(io, { ticket, procedure: id, sets, rolls: options.roll ?? [] });
    else say(io, `${ticket}: ${id}, ${sets} ${sets === 1 ? 'set' : 'sets'}. Play it with \`walkfoot sew ${ticket}\`.`);
    return 0;

    /** As said, or as many as the current revision says. */
    async function setsOf(said: string | undefined): Promise<number | undefined> {
      if (said !== undefined) return /^\d{1,3}$/.test(said) ? Number(said) : undefined;
      const digest = currentRelease(ledger.room(), id)?.digest;
      const text = digest && (await ledger.procedure(digest));
      return text?.ok ? text.value.sets : 1;
    }
  });
}

const known = (typed: string, released: readonly ProcedureId[]): ProcedureId =>
  released.find((each) => each.toLowerCase() === typed.toLowerCase()) ?? (typed as ProcedureId);

function nextTicket(taken: readonly string[]): string {
  const numbers = taken.map((ticket) => Number(/^B-(\d{1,9})$/.exec(ticket)?.[1] ?? 0));
  return `B-${Math.max(1000, ...numbers) + 1}`;
}
