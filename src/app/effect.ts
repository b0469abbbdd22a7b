import type { HandId, TicketId } from '../base/brand.ts';
import type { Instant } from '../base/instant.ts';
import type { Refusal, Result } from '../base/result.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { Command } from '../bundle/command.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import type { FromPaper } from '../bundle/from-paper.ts';
import type { Room } from '../bundle/room.ts';
import type { Difference } from '../procedure/difference.ts';
import type { Catalogue } from '../words/say.ts';
import type { Form, SeenPictures } from './app.ts';
import type { DeskDraft } from './desk.ts';
import type { Intent } from './intent.ts';
import type { Move } from './move.ts';
import type { Playing } from './room-ledger.ts';
import type { ToSign } from './sign.ts';

/** What the program wants done outside itself, as data; carried out in one place, which answers with news. */
export type Effect =
  | { readonly effect: 'attempt'; readonly ticket: TicketId | null; readonly command: Command }
  /** Take a ticket up: open it, or go on with it. */
  | { readonly effect: 'take'; readonly ticket: TicketId; readonly hand: HandId; readonly paper?: FromPaper }
  /** Look at a bundle without taking it up. */
  | { readonly effect: 'open at desk'; readonly ticket: TicketId }
  /** Attempt a command with a PIN: the one the hand has, or the first one it chose. */
  | { readonly effect: 'sign'; readonly to: ToSign; readonly pin: string; readonly as: 'known' | 'first' }
  /** See what others have written. */
  | { readonly effect: 'look' }
  | { readonly effect: 'bell' };

/** What comes in: what a person does, what became of an effect, the passing of time. */
export type News =
  | { readonly news: 'move'; readonly move: Move }
  | { readonly news: 'intent'; readonly intent: Intent }
  | { readonly news: 'form'; readonly form: Form }
  | { readonly news: 'form answer'; readonly text: string }
  | { readonly news: 'sign on'; readonly who: string }
  | { readonly news: 'ticket'; readonly ticket: string }
  | {
      readonly news: 'done';
      readonly command: Command;
      readonly entries: readonly RecordedEntry[];
      readonly room: Room;
      readonly playing: Playing | null;
      readonly bundles: readonly Bundle[];
    }
  | {
      readonly news: 'taken';
      readonly room: Room;
      readonly playing: Playing;
      readonly bundles: readonly Bundle[];
      readonly changes: readonly Difference[];
    }
  /** `command` is what was attempted; a ticket that could not be taken has none. */
  | { readonly news: 'refused'; readonly refusal: Refusal; readonly command?: Command }
  /** Nothing but a PIN is missing. */
  | { readonly news: 'pin asked'; readonly to: ToSign; readonly stage: 'known' | 'new' }
  /** A line that answers the question for a PIN. */
  | { readonly news: 'pin'; readonly text: string }
  | {
      readonly news: 'seen';
      readonly room: Room;
      readonly bundles: readonly Bundle[];
      readonly playing: Playing | null;
    }
  /** The pictures of a text were read. */
  | { readonly news: 'pictures'; readonly pictures: SeenPictures }
  /** Drafts were read again. */
  | { readonly news: 'drafts'; readonly drafts: readonly DeskDraft[] }
  /** The words of the hand at the machine were loaded. */
  | { readonly news: 'words'; readonly words: Catalogue | null }
  /** The time that the paper says of what comes next, as an RFC 3339 stamp, or why what was typed is none. */
  | { readonly news: 'paper time'; readonly stamp: Result<string> }
  | { readonly news: 'second' }
  /** The lock is due when a line arrives: the line is kept. */
  | { readonly news: 'lock'; readonly kept: string };

/** News with the moment it arrived. */
export type Arrived = News & { readonly now: Instant };
