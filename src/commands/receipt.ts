import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { writeReceipt } from '../ledger/receipt.ts';
import { inPlainWords } from '../storage/trouble.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say } from './io.ts';
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
    const older = since ? [since.value.checkpoint.size] : [];
    const note = await ledger.seal();
    const tree = await store.tree();
    if (older.some((size) => size < 1 || size > tree.size))
      return cannot(
        io,
        `${options.since} was signed over ${older[0]} entries, and this ledger has ${tree.size}: it is another ledger’s, or this one’s end was cut off.`,
      );
    const entries = await store.read({ ticket });
    const texts = new Set(entries.flatMap(({ entry }) => (entry.kind === 'opened' ? [entry.body.digest] : [])));
    const releases = (await store.read({ kinds: ['released'] })).filter(({ entry }) => texts.has(entry.body.digest));
    const all = [...entries, ...releases].sort((a, b) => a.entry.seq - b.entry.seq);
    const file = options.out ?? `${ticket}.receipt`;
    const text = writeReceipt({ ticket, entries: all, note, tree, older });
    const path = resolve(io.cwd, file);
    inPlainWords(path, () => writeFileSync(path, text, { flag: 'wx', flush: true }));
    say(
      io,
      `${file}: ${entries.length} entries of ${ticket}, signed over ${tree.size}. Check it with \`walkfoot verify ${file} --key KEY\`; \`walkfoot station\` prints the key.`,
    );
    return 0;
  });
}
