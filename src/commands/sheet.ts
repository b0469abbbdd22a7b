import { chalkStderr } from 'chalk';
import { assertNever } from '../base/assert-never.ts';
import type { TicketId } from '../base/brand.ts';
import { formatStamp } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import { releasesOf } from '../bundle/room.ts';
import { findingsReport } from '../reports/findings.ts';
import { sheet as drawn } from '../reports/paper/sheet.ts';
import type { PaperSize } from '../reports/paper/sheet-matter.ts';
import { attemptSigned } from './attempt-signed.ts';
import { whoActs } from './hand.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say } from './io.ts';
import { fileName, newFile } from './new-file.ts';
import { printableText, releasedText } from './printable-text.ts';

interface SheetOptions extends RoomOption {
  readonly out?: string;
  readonly paper: PaperSize;
  readonly hand?: string;
}

/** Writes a procedure as a form to be printed: for a ticket as its bundle stands, otherwise blank. */
export function sheet(typed: string, options: SheetOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async (open) => {
    const ticket = open.ledger.ticketNamed(typed);
    return ticket === undefined ? blankForm(typed, open, options, io) : ticketSheet(ticket, open, options, io);
  });
}

async function blankForm(typed: string, open: PlayableRoom, options: SheetOptions, io: Io): Promise<ExitCode> {
  const found = await printableText(typed, open);
  switch (found.outcome) {
    case 'refused':
      return cannot(io, found.refusal.message);
    case 'errors': {
      const { name, text } = found.file;
      io.err(findingsReport(found.findings, new Map([[name, text]]), chalkStderr));
      io.err(`Not printed: mend the errors in ${oneLine(name)} first.\n`);
      return 1;
    }
    case 'text': {
      const file = newFile(options.out ?? `${fileName(found.text.procedure.id)}.html`, io);
      if (!file.ok) return cannot(io, file.error.message);
      file.value.write(
        drawn({
          ...found.text,
          room: open.ledger.room(),
          ticket: null,
          paper: options.paper,
          at: formatStamp(io.clock()),
        }),
      );
      return told(file.value.name, options, io);
    }
    default:
      return assertNever(found);
  }
}

/** A sheet for a bundle carries the ticket's code, so that it is counted; and it is counted before it is there. */
async function ticketSheet(ticket: TicketId, open: PlayableRoom, options: SheetOptions, io: Io): Promise<ExitCode> {
  const { ledger } = open;
  const before = await ledger.playing(ticket);
  if (!before.ok) return cannot(io, before.error.message);
  const { printed, text, procedure: id } = before.value.bundle;
  const file = newFile(options.out ?? `${fileName(ticket)}${printed > 0 ? `.copy-${printed}` : ''}.html`, io);
  if (!file.ok) return cannot(io, file.error.message);
  const by = whoActs(options.hand, ledger.room());
  if (!by.ok) return cannot(io, by.error.message);
  const done = await attemptSigned(ledger, ticket, { do: 'print', hand: by.value, what: 'sheet' }, io);
  if (!done.ok) return cannot(io, done.error.message);
  const { bundle, procedure } = done.value.playing ?? before.value;
  const room = ledger.room();
  const release = releasesOf(room, id).findLast(({ revision }) => text === null || revision === text.revision);
  if (!release) return cannot(io, `${ticket} is on a revision that was never released here: run \`walkfoot verify\`.`);
  const onTicket = { bundle, copy: bundle.printed - 1 };
  const printable = await releasedText(release, procedure, open);
  file.value.write(drawn({ ...printable, room, ticket: onTicket, paper: options.paper, at: formatStamp(io.clock()) }));
  return told(file.value.name, options, io);
}

function told(name: string, { paper }: SheetOptions, io: Io): ExitCode {
  say(io, `${name}: open it in a browser and print it on ${paper}, at 100 %.`);
  return 0;
}
