import { type App, startApp } from '../app/app.ts';
import type { ThreadOf } from '../app/perform.ts';
import type { RoomLedger } from '../app/room-ledger.ts';
import type { AppStore } from '../app/store.ts';
import type { FindPicture } from './find-picture.ts';
import { followPictures } from './follow-pictures.ts';
import { cannot, type Io, say } from './io.ts';
import { roomStore } from './room-store.ts';

export interface SessionOptions {
  /** Hand to sign on at once: a name, the beginning of one, an id or a badge. */
  readonly hand?: string;
  readonly plain?: boolean;
}

interface SessionMeans {
  readonly bell: 'rings' | 'is silent';
  readonly thread?: ThreadOf;
  readonly pictures: FindPicture;
  /** What goes on beside the session; called when it begins, and its answer when it ends. */
  readonly meanwhile?: (store: AppStore) => () => void;
}

/**
 * One person's session at this terminal: on the whole screen, or as a dialogue with `--plain` and whenever input or output
 * is no terminal. Answers the exit code.
 */
export async function runSession(
  ledger: RoomLedger,
  as: Pick<App, 'purpose' | 'home' | 'roomName' | 'station' | 'letters' | 'bound' | 'lockAfter' | 'language' | 'words'>,
  { hand, plain, bell, thread, pictures, meanwhile }: SessionOptions & SessionMeans,
  io: Io,
): Promise<number> {
  let ring: () => void = () => {};
  const first = startApp({ ...as, now: io.clock(), room: ledger.room(), bundles: ledger.bundles() });
  const store = roomStore({ ledger, ...(thread ? { thread } : {}), ring: () => ring() }, first, io);
  const following = followPictures(store, pictures);
  if (hand !== undefined) {
    store.tell({ news: 'sign on', who: hand });
    await store.settled();
    const { message, play, pin, hand: signedOn } = store.app();
    // Who is asked for a PIN first is asked by the screen or the dialogue.
    if (pin === null && (signedOn === null || (as.bound !== null && play === null))) {
      return cannot(io, message?.text ?? 'The bundle could not be taken up.');
    }
  }
  // A terminal that says it can do nothing is spoken to line by line.
  const isDumb = (io.env.TERM ?? 'dumb') === 'dumb';
  const isPlain = plain || isDumb || !io.stdout.isTTY || !io.stdin.isTTY;
  const stop = meanwhile?.(store);
  const code = await (isPlain ? spoken() : shown()).finally(() => {
    stop?.();
    following.stop();
  });
  // The one bundle this was about never came into anybody's hands.
  return store.app().bound === null ? code : 2;

  async function spoken(): Promise<number> {
    const { playPlain } = await import('./plain.ts');
    return playPlain(store, io, { ready: following.seen });
  }

  async function shown(): Promise<number> {
    const { showProgram } = await import('./show.tsx');
    const end = await showProgram({ store, io, onBell: (sound) => (ring = bell === 'rings' ? sound : ring) });
    const { message } = store.app();
    if (message) say(io, message.text);
    return end;
  }
}
