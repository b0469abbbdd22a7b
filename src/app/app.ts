import type { HandId, TicketId } from '../base/brand.ts';
import type { Instant } from '../base/instant.ts';
import type { Language } from '../base/language.ts';
import { refuse } from '../base/result.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { FromPaper } from '../bundle/from-paper.ts';
import { type Next, next } from '../bundle/next.ts';
import type { Room } from '../bundle/room.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import type { Difference } from '../procedure/difference.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Catalogue } from '../words/say.ts';
import type { Desk, Errand } from './desk.ts';
import type { Lock } from './lock.ts';
import type { PinAsk } from './pin-ask.ts';
import type { Playing } from './room-ledger.ts';

/** The whole program at one moment, without a screen. Screens and the line dialogue are pictures of it. */
export interface App {
  /** A rehearsal plays a draft and records nothing; every screen says so. */
  readonly purpose: 'record' | 'rehearse';
  /** Where leaving a bundle leads: to the station's screen, or out of the program. */
  readonly home: 'station' | 'desk' | 'out';
  readonly roomName: string;
  readonly station: string;
  readonly now: Instant;
  readonly room: Room;
  /** Tickets that are not finished, oldest first. */
  readonly bundles: readonly Bundle[];
  readonly hand: HandId | null;
  /** Taken up as soon as somebody has signed on. */
  readonly bound: TicketId | null;
  readonly play: Play | null;
  /** The pictures that were read last: those of one text, by their addresses. */
  readonly pictures: SeenPictures | null;
  readonly layer: Layer | null;
  /** Asked for before what it signs happens; over every layer. */
  readonly pin: PinAsk | null;
  /** The station has locked itself and asks who is here; what was being done stays as it is underneath. */
  readonly lock: Lock | null;
  /** Minutes without a key after which it does; null for never. */
  readonly lockAfter: number | null;
  /** When somebody last did something here. */
  readonly touchedMs: number;
  /** What stands in the open field. */
  readonly field: string;
  /** The row chosen in a list, from 0. */
  readonly chosen: number;
  /** Rows scrolled by hand away from the next action. */
  readonly scroll: number;
  readonly message: Message | null;
  readonly letters: 'normal' | 'big';
  /** Who wants explanations folded away where they may be, until they sign on anew. */
  readonly foldedBy: HandId | null;
  /** What the room's screens speak, and whoever has no language of their own. */
  readonly language: Language;
  /** The words of the room's language, and of the hand's; null where they are English. */
  readonly words: { readonly room: Catalogue | null; readonly hand: Catalogue | null };
  /** What is answered was written on paper: who types it in, and the time it says. */
  readonly paper: FromPaper | null;
  /** What a supervisor's desk shows; null everywhere else. */
  readonly desk: Desk | null;
  /** What the desk gave the terminal away for; null while it has it. */
  readonly errand: Errand | null;
  /** Set when the program is over: the exit code. */
  readonly ended: number | null;
}

export interface SeenPictures {
  readonly of: Procedure;
  readonly found: ReadonlyMap<string, SeenPicture>;
}

/** One bundle at the machine. */
export interface Play extends Playing {
  readonly ticket: TicketId;
  readonly next: Next;
  /** What was recorded last in this session, as long as nothing came after it: an answer that can be taken back, or a bobbin, which can't. */
  readonly last: { readonly entry: number; readonly ms: number } | 'bobbin' | null;
  /** What is new against the text this hand sewed last, while it is to be read. */
  readonly changes: readonly Difference[];
}

/** What lies over the screen and hears keys first. */
export type Layer =
  /** The help: over the layer whose keys it lists, to which it leads back. */
  | { readonly layer: 'keys'; readonly over: Layer | null }
  /** The next letter is a key, although a field is open. */
  | { readonly layer: 'one key' }
  | { readonly layer: 'look back' }
  /** The pictures of the step at hand, one at a time. */
  | { readonly layer: 'picture' }
  /** A draft at the desk: what is to be mended in it, how it is read, or what has changed. Follows every save. */
  | { readonly layer: 'draft'; readonly file: string; readonly shows: 'findings' | 'reading' | 'changes' }
  | { readonly layer: 'form'; readonly form: Form };

/** A few questions in a row that end in one intent. Answers are kept as they were understood. */
export interface Form {
  readonly about: 'hold' | 'note' | 'strike' | 'hand over' | 'go back' | 'settle' | 'bobbin';
  /** The entry to strike. */
  readonly entry?: number;
  readonly answers: Readonly<Record<string, string>>;
}

export interface Message {
  readonly tone: 'refusal' | 'good' | 'plain';
  readonly text: string;
}

export function startApp(
  of: Pick<
    App,
    | 'purpose'
    | 'home'
    | 'roomName'
    | 'station'
    | 'now'
    | 'room'
    | 'bundles'
    | 'letters'
    | 'bound'
    | 'lockAfter'
    | 'language'
    | 'words'
  >,
): App {
  const nothing = {
    hand: null,
    play: null,
    layer: null,
    pin: null,
    lock: null,
    message: null,
    ended: null,
    foldedBy: null,
    desk: null,
    paper: null,
    errand: null,
    pictures: null,
  } as const;
  return { ...of, ...nothing, touchedMs: of.now.ms, field: '', chosen: 0, scroll: 0 };
}

/** The bundle as this hand now finds it. */
export function playOf(
  { bundle, procedure, sheet, thread }: Playing,
  room: Room,
  hand: HandId,
  { last, changes }: Pick<Play, 'last' | 'changes'>,
): Play {
  const seen = { bundle, procedure, ...(sheet ? { sheet } : {}), ...(thread ? { thread } : {}) };
  return { ...seen, ticket: bundle.ticket, next: next(procedure, room, bundle, hand, thread), last, changes };
}

/** For this long one key strikes what was just recorded, without a reason. */
const UNDO_MS = 5000;

/** The entry that the undo key would strike now. */
export function undoable({ play, now }: App): number | null {
  const last = play?.last;
  if (!last || last === 'bobbin') return null;
  return now.ms - last.ms < UNDO_MS && now.ms >= last.ms ? last.entry : null;
}

/** Why the undo key strikes nothing. */
export const notUndone = ({ play }: App): ReturnType<typeof refuse> =>
  play?.last === 'bobbin'
    ? refuse('undo-bobbin', 'A bobbin is not taken back: say again how much is on it (w, or bobbin 12.5).')
    : refuse('undo-late', 'It is too late to undo: look back and strike it with a reason.');
