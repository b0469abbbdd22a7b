import { startApp } from '../app/app.ts';
import { findHand } from '../app/find-hand.ts';
import { paperStamp } from '../app/paper-time.ts';
import { formatStamp } from '../base/instant.ts';
import { asRoomSays } from './as-room-says.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { playPlain } from './plain.ts';
import { roomStore } from './room-store.ts';

interface KeyInOptions extends RoomOption {
  readonly for: string;
  readonly by: string;
  readonly at: string;
}

/**
 * Types in what was done on paper, point by point in the procedure's order, by one hand for another or for themselves. Each entry is of
 * whoever did the work, and says when the paper has it and who typed it. A line that is refused ends a pipe with exit 2: what was
 * before it stands, and the same lines from there on go on.
 */
export function keyIn(typed: string, options: KeyInOptions, io: Io): Promise<number> {
  return onLedger(options, io, async ({ room, ledger }) => {
    const ticket = ledger.ticketNamed(typed);
    if (ticket === undefined) return cannot(io, `There is no ticket ${typed} in this room: look at its label.`);
    const hand = findHand(ledger.room(), options.for);
    if (!hand.ok) return cannot(io, hand.error.message);
    const by = findHand(ledger.room(), options.by);
    if (!by.ok) return cannot(io, by.error.message);
    const now = io.clock();
    const begun = paperStamp(options.at, formatStamp(now), io.offsetAt);
    if (!begun.ok) return cannot(io, begun.error.message);
    const as = { purpose: 'record', home: 'out', bound: ticket, ...(await asRoomSays(room)), lockAfter: null } as const;
    const first = {
      ...startApp({ ...as, now, room: ledger.room(), bundles: ledger.bundles() }),
      hand: hand.value.id,
      paper: { by: by.value.id, doneAt: begun.value },
    };
    // On paper it was another machine's bobbin, or none that is known.
    const store = roomStore({ ledger }, first, io);
    store.tell({ news: 'ticket', ticket });
    await store.settled();
    const { message, pin, play } = store.app();
    if (pin === null && play === null) return cannot(io, message?.text ?? `${ticket} could not be taken up.`);
    const code = await playPlain(store, io, { atRefusal: io.stdin.isTTY ? 'ask again' : 'stop' });
    return store.app().bound === null ? code : 2;
  });
}
