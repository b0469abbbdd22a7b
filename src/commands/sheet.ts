import { chalkStderr } from 'chalk';
import { assertNever } from '../base/assert-never.ts';
import type { TicketId } from '../base/brand.ts';
import { formatStamp } from '../base/instant.ts';
import type { Language } from '../base/language.ts';
import { ok, type Result, refuse } from '../base/result.ts';
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
import { paperName } from './paper-name.ts';
import { printableText, releasedText } from './printable-text.ts';

interface SheetOptions extends RoomOption {
  readonly out?: string;
  readonly paper: PaperSize;
  readonly hand?: string;
  /** What the paper is read in, unless it is what the room speaks. */
  readonly language?: Language;
}

/** Writes a procedure as a form to be printed: for a ticket as its bundle stands, otherwise blank. */
export function sheet(typed: string, options: SheetOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async (open) => {
    const ticket = open.ledger.ticketNamed(typed);
    return ticket === undefined ? blankForm(typed, open, options, io) : ticketSheet(ticket, open, options, io);
  });
}

async function blankForm(typed: string, open: PlayableRoom, options: SheetOptions, io: Io): Promise<ExitCode> {
  const found = await printableText(typed, options.language ?? open.room.settings.language, open);
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
      const { text } = found;
      const matter = { ...text, room: open.ledger.room(), ticket: null, paper: options.paper };
      const file = await newFile(options.out ?? `${fileName(text.procedure.id)}.html`, io, async () =>
        ok(drawn({ ...matter, at: formatStamp(io.clock()) })),
      );
      return told(file, options, io);
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
  const by = whoActs(options.hand, ledger.room());
  if (!by.ok) return cannot(io, by.error.message);
  const file = await newFile(options.out ?? paperName(before.value.bundle, '.html'), io, async () => {
    const done = await attemptSigned(ledger, ticket, { do: 'print', hand: by.value, what: 'sheet' }, io);
    if (!done.ok) return done;
    const { bundle, procedure } = done.value.playing ?? before.value;
    const room = ledger.room();
    const release = releasesOf(room, bundle.procedure).findLast(
      ({ revision }) => bundle.text === null || revision === bundle.text.revision,
    );
    if (!release)
      return refuse('no-release', `${ticket} is on a revision never released here: run \`walkfoot verify\`.`);
    const text = await releasedText(release, procedure, options.language ?? open.room.settings.language, open);
    const onTicket = { bundle, copy: bundle.printed - 1 };
    return ok(drawn({ ...text, room, ticket: onTicket, paper: options.paper, at: formatStamp(io.clock()) }));
  });
  return told(file, options, io);
}

function told(file: Result<string>, { paper }: SheetOptions, io: Io): ExitCode {
  if (!file.ok) return cannot(io, file.error.message);
  say(io, `${file.value}: open it in a browser and print it on ${paper}, at 100 %.`);
  return 0;
}
