import { readCheckpoint } from '../ledger/checkpoint.ts';
import { newSigningKey, verifierKeyText, verifierOf } from '../ledger/note-key.ts';
import { unsignedText } from '../ledger/signed-note.ts';
import { attemptSigned } from './attempt-signed.ts';
import { whoActs } from './hand.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';

interface StationOptions extends RoomOption {
  readonly checkpoint?: boolean;
  readonly newKey?: boolean;
  readonly hand?: string;
  readonly json?: boolean;
}

/** Says which station this is, the key that others check its signatures with, and how far its ledger is signed. */
export function station(options: StationOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async ({ room, store, ledger }) => {
    if (options.newKey) {
      const by = whoActs(options.hand, ledger.room());
      if (!by.ok) return cannot(io, by.error.message);
      const key = newSigningKey(room.station);
      const command = { do: 'take key', hand: by.value, key: verifierKeyText(verifierOf(key)) } as const;
      const named = await attemptSigned(ledger, null, command, io);
      if (!named.ok) return cannot(io, named.error.message);
      room.key().put(key);
      await store.seal(key);
    }
    if (options.checkpoint) {
      io.out(await store.seal(await ledger.key()));
      return 0;
    }
    const keys = ledger.room().keys;
    const last = (await store.checkpoints()).at(-1);
    const text = last === undefined ? undefined : unsignedText('The checkpoint', last);
    const read = text?.ok ? readCheckpoint(text.value) : undefined;
    const { size: entries } = await store.tree();
    const signed = read?.ok ? read.value.size : 0;
    const here = room.key().find();
    const usable = here !== undefined && verifierKeyText(verifierOf(here)) === keys.at(-1);
    if (options.json)
      sayJson(io, {
        station: room.station,
        room: room.name,
        key: keys.at(-1) ?? null,
        keyUsable: usable,
        keys,
        entries,
        signed,
      });
    else {
      say(io, `Station ${room.station} of ${room.name}`);
      say(io, `Key      ${keys.at(-1) ?? 'none yet: it is made with the first entry'}`);
      say(io, `Entries  ${entries}, of which ${signed} are signed`);
    }
    return 0;
  });
}
