import { openCheckpoint } from '../ledger/checkpoint.ts';
import { verifierOf } from '../ledger/note-key.ts';
import { makeReceipt } from '../ledger/receipt.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say } from './io.ts';
import { fileName, newFile } from './new-file.ts';
import { checkpointFrom } from './verify.ts';

interface ReceiptOptions extends RoomOption {
  readonly out?: string;
  readonly since?: string;
}

/** Writes what proves one bundle to somebody who has no other part of the ledger. */
export function receipt(typed: string, options: ReceiptOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async ({ ledger, store }) => {
    const ticket = ledger.ticketNamed(typed);
    if (ticket === undefined) return cannot(io, `There is no ticket ${typed} in this room: look at its label.`);
    const since = options.since === undefined ? undefined : checkpointFrom(options.since, io);
    if (since && !since.ok) return cannot(io, since.error.message);
    const from = since?.value.checkpoint.size;
    const key = await ledger.key();
    const checkpoint = await store.seal(key);
    const sealed = openCheckpoint(checkpoint, verifierOf(key));
    if (!sealed.ok) return cannot(io, `${sealed.error.message} Run \`walkfoot verify\`.`);
    const { size } = sealed.value;
    if (from !== undefined && (from < 1 || from > size))
      return cannot(
        io,
        `${options.since} was signed over ${from} entries, and this ledger has ${size}: it is another ledger’s, or this one’s end was cut off.`,
      );
    // Another program may have written since: what the checkpoint does not cover is not proved by it.
    const { nodeAt } = await store.tree();
    const entries = (await store.read({ ticket })).filter(({ entry }) => entry.seq < size);
    const made = makeReceipt(
      { ticket, entries, tree: { size, nodeAt }, checkpoint, ...(from === undefined ? {} : { since: from }) },
      key,
    );
    if (!made.ok) return cannot(io, `${made.error.message} Run \`walkfoot verify\`.`);
    const file = await newFile(options.out ?? `${fileName(ticket)}.receipt`, io, async () => made);
    if (!file.ok) return cannot(io, file.error.message);
    const name = file.value;
    say(
      io,
      `${name}: ${entries.length} entries of ${ticket}, signed over ${size}. Check it with \`walkfoot verify ${name} --key KEY\`; \`walkfoot station\` prints the key.`,
    );
    return 0;
  });
}
