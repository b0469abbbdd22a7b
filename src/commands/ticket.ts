import type { ProcedureId, TicketId } from '../base/brand.ts';
import { many } from '../base/many.ts';
import { currentRelease } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { whoActs } from './hand.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';
import { newFile } from './new-file.ts';
import { paperName } from './paper-name.ts';
import { printLabel } from './print-label.ts';
import { showQr } from './show-qr.ts';

interface TicketOptions extends RoomOption {
  readonly sets?: string;
  readonly roll?: readonly string[];
  readonly name?: string;
  readonly label?: string | true;
  readonly qr?: true;
  readonly again?: string;
  readonly hand?: string;
  readonly json?: boolean;
}

/** Makes a ticket for a new bundle, or prints the label of one there is once more. */
export async function ticket(procedure: string | undefined, options: TicketOptions, io: Io): Promise<ExitCode> {
  const { again } = options;
  if (again !== undefined) {
    if (procedure !== undefined)
      return cannot(io, `--again prints the label of a ticket there is: leave out ${procedure}.`);
    return onLedger(options, io, (open) => printAgain(again, open, options, io));
  }
  if (procedure === undefined)
    return cannot(io, 'Say first which procedure the bundle is sewn by, such as `walkfoot ticket LIN-2207 --label`.');
  return onLedger(options, io, (open) => makeTicket(procedure, open, options, io));
}

/** With the next free number, unless it is given a name. */
async function makeTicket(typed: string, open: PlayableRoom, options: TicketOptions, io: Io): Promise<ExitCode> {
  const { ledger } = open;
  const by = whoActs(options.hand, ledger.room());
  if (!by.ok) return cannot(io, by.error.message);
  const procedure = known(typed, [...ledger.room().releases.keys()]);
  const name = (options.name ?? nextTicket(ledger.bundles().map((bundle) => bundle.ticket))) as TicketId;
  const sets = await setsOf(options.sets);
  if (sets === undefined) return cannot(io, `--sets takes a whole number, not ${options.sets}.`);
  const make = () =>
    ledger.attempt(name, {
      do: 'make ticket',
      hand: by.value,
      ticket: name,
      procedure,
      sets,
      rolls: options.roll ?? [],
    });
  const made =
    options.label === undefined
      ? await make()
      : await newFile(labelName(options.label, { ticket: name, printed: 0 }), io, async () => {
          const done = await make();
          return done.ok ? printLabel(name, by.value, open, io) : done;
        });
  if (!made.ok) return cannot(io, made.error.message);
  const label = typeof made.value === 'string' ? made.value : undefined;
  const rolls = ledger.bundles().find((bundle) => bundle.ticket === name)?.rolls;
  if (options.json) sayJson(io, { ticket: name, procedure, sets, rolls, label });
  else {
    const room = options.room ? ` --room ${options.room}` : '';
    say(io, `${name}: ${procedure}, ${many(sets, 'set')}. Play it with \`walkfoot sew ${name}${room}\`.`);
    if (label !== undefined) say(io, labelWords(label));
    await showQr(name, options.qr, io);
  }
  return 0;

  /** As said, or as many as the current revision says. */
  async function setsOf(said: string | undefined): Promise<number | undefined> {
    if (said !== undefined) return /^\d{1,3}$/.test(said) ? Number(said) : undefined;
    const understood = currentRelease(ledger.room(), procedure)?.understood;
    const text = understood && (await ledger.procedure(understood));
    return text?.ok ? text.value.sets : 1;
  }
}

/** For a label that is torn or lost: the same code, marked as a copy. */
async function printAgain(typed: string, open: PlayableRoom, options: TicketOptions, io: Io): Promise<ExitCode> {
  const { ledger } = open;
  const name = ledger.ticketNamed(typed);
  if (name === undefined) return cannot(io, `There is no ticket ${typed} in this room: look at its label.`);
  const by = whoActs(options.hand, ledger.room());
  if (!by.ok) return cannot(io, by.error.message);
  const playing = await ledger.playing(name);
  if (!playing.ok) return cannot(io, playing.error.message);
  const { bundle } = playing.value;
  const file = await newFile(labelName(options.label, bundle), io, () => printLabel(name, by.value, open, io));
  if (!file.ok) return cannot(io, file.error.message);
  if (options.json) sayJson(io, { ticket: name, label: file.value, copy: bundle.printed });
  else {
    say(io, `${name}${bundle.printed > 0 ? `, COPY ${bundle.printed}` : ''}. ${labelWords(file.value)}`);
    await showQr(name, options.qr, io);
  }
  return 0;
}

const labelName = (said: string | true | undefined, bundle: Parameters<typeof paperName>[0]): string =>
  typeof said === 'string' ? said : paperName(bundle, '.label.html');

const labelWords = (file: string): string =>
  `${file}: open it in a browser and print it on a label of 100 × 62 mm, at 100 %.`;

const known = (typed: string, released: readonly ProcedureId[]): ProcedureId =>
  named(released, typed) ?? (typed as ProcedureId);

function nextTicket(taken: readonly string[]): string {
  const numbers = taken.map((ticket) => Number(/^B-(\d{1,9})$/.exec(ticket)?.[1] ?? 0));
  return `B-${Math.max(1000, ...numbers) + 1}`;
}
