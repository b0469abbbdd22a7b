import chalk from 'chalk';
import type { ProcedureId, TicketId } from '../base/brand.ts';
import { many } from '../base/many.ts';
import { currentRelease } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { whoActs } from './hand.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';
import { labelFile, printLabel } from './print-label.ts';

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
async function makeTicket(procedure: string, open: PlayableRoom, options: TicketOptions, io: Io): Promise<ExitCode> {
  const { ledger } = open;
  const by = whoActs(options.hand, ledger.room());
  if (!by.ok) return cannot(io, by.error.message);
  const id = known(procedure, [...ledger.room().releases.keys()]);
  const name = (options.name ?? nextTicket(ledger.bundles().map((bundle) => bundle.ticket))) as TicketId;
  const sets = await setsOf(options.sets);
  if (sets === undefined) return cannot(io, `--sets takes a whole number, not ${options.sets}.`);
  const file = options.label === undefined ? null : labelFile(options.label, name, 0, io);
  if (file && !file.ok) return cannot(io, file.error.message);
  const done = await ledger.attempt(name, {
    do: 'make ticket',
    hand: by.value,
    ticket: name,
    procedure: id,
    sets,
    rolls: options.roll ?? [],
  });
  if (!done.ok) return cannot(io, done.error.message);
  const [made] = done.value.entries;
  const printed = file && (await printLabel(name, by.value, file.value, open, io));
  const label = file?.value.name;
  if (options.json) sayJson(io, { ...made?.body, ...(label === undefined ? {} : { label }) });
  else {
    const room = options.room ? ` --room ${options.room}` : '';
    say(io, `${name}: ${id}, ${many(sets, 'set')}. Play it with \`walkfoot sew ${name}${room}\`.`);
    if (label !== undefined && printed?.ok) say(io, labelWords(label));
    await showQr(name, options, io);
  }
  return printed && !printed.ok ? cannot(io, printed.error.message) : 0;

  /** As said, or as many as the current revision says. */
  async function setsOf(said: string | undefined): Promise<number | undefined> {
    if (said !== undefined) return /^\d{1,3}$/.test(said) ? Number(said) : undefined;
    const understood = currentRelease(ledger.room(), id)?.understood;
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
  const file = labelFile(options.label, name, playing.value.bundle.printed, io);
  if (!file.ok) return cannot(io, file.error.message);
  const copy = await printLabel(name, by.value, file.value, open, io);
  if (!copy.ok) return cannot(io, copy.error.message);
  const label = file.value.name;
  if (options.json) sayJson(io, { ticket: name, label, copy: copy.value });
  else {
    say(io, `${name}${copy.value > 0 ? `, COPY ${copy.value}` : ''}. ${labelWords(label)}`);
    await showQr(name, options, io);
  }
  return 0;
}

const labelWords = (file: string): string =>
  `${file}: open it in a browser and print it on a label of 100 × 62 mm, at 100 %.`;

/** Shows the code to whoever stands at the screen with a scanner; unasked only at a terminal that has room for it. */
async function showQr(name: string, { qr }: TicketOptions, io: Io): Promise<void> {
  const width = io.stdout.isTTY ? io.stdout.columns : Number.POSITIVE_INFINITY;
  if (!qr && !io.stdout.isTTY) return;
  const { terminalQr } = await import('../reports/terminal-qr.ts');
  const { lines, columns } = terminalQr(name);
  if (columns > width) {
    if (qr) say(io, `The QR code takes ${columns} columns: make the terminal wider, or write a label with --label.`);
    return;
  }
  // Black and white by name: in the terminal's own two colours it would be turned round on a light ground.
  const drawn = io.env.NO_COLOR ? lines : lines.map((line) => chalk.ansi256(231).bgAnsi256(16)(line));
  io.out(`\n${drawn.join('\n')}\n\n`);
}

const known = (typed: string, released: readonly ProcedureId[]): ProcedureId =>
  named(released, typed) ?? (typed as ProcedureId);

function nextTicket(taken: readonly string[]): string {
  const numbers = taken.map((ticket) => Number(/^B-(\d{1,9})$/.exec(ticket)?.[1] ?? 0));
  return `B-${Math.max(1000, ...numbers) + 1}`;
}
