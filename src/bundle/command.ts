import type { Digest, HandId, PointId, ProcedureId, StepId, TicketId } from '../base/brand.ts';
import type { Language } from '../base/language.ts';
import type { SetNumber } from './bundle.ts';
import type { Paper, Role } from './entries.ts';
import type { FromPaper } from './from-paper.ts';
import type { Meaning } from './meaning.ts';
import type { SealedPin } from './pin.ts';
import type { ReleasedSheet } from './room.ts';

/** What somebody asks for. `hand` is who acts; `decide` says whether it may happen and what then has happened. */
export type Command = {
  readonly hand: HandId;
  /** The hand did it on paper, and somebody types it in. */
  readonly paper?: FromPaper;
} & (RoomCommand | BundleCommand);

/** How many supervisors the room says it has. */
export type Supervisors = 'several' | 'one';

export type RoomCommand =
  | {
      readonly do: 'enrol';
      readonly who: HandId;
      readonly name: string;
      readonly role: Role;
      readonly badge?: string;
      readonly language?: Language;
    }
  | { readonly do: 'set language'; readonly who: HandId; readonly language: Language }
  /** From here on the station signs with this key (a C2SP verifier key). */
  | { readonly do: 'take key'; readonly key: string }
  | { readonly do: 'retire'; readonly who: HandId; readonly reason?: string }
  | {
      readonly do: 'release';
      /** Who wrote the text; older entries of the ledger do not say. */
      readonly author?: HandId;
      /** Where the room has one supervisor only, they may release what they wrote. */
      readonly supervisors: Supervisors;
      readonly procedure: ProcedureId;
      readonly title: string;
      readonly digest: Digest;
      readonly understood: Digest;
      readonly pictures: readonly { readonly address: string; readonly digest: Digest }[];
      readonly sheets?: readonly ReleasedSheet[];
    }
  | { readonly do: 'withdraw'; readonly procedure: ProcedureId; readonly revision: string; readonly reason: string }
  | {
      readonly do: 'make ticket';
      readonly ticket: TicketId;
      readonly procedure: ProcedureId;
      readonly sets: number;
      readonly rolls: readonly string[];
    }
  /** `after`: at a station that had locked itself, by the hand who was on or by another. */
  | { readonly do: 'sign on'; readonly after?: 'own lock' | 'lock of another' }
  | ({ readonly do: 'set pin'; readonly who: HandId } & SealedPin)
  | { readonly do: 'set skill'; readonly who: HandId; readonly skill: string; readonly level: number }
  /** Somebody typed a wrong PIN for `who`. */
  | { readonly do: 'fail pin'; readonly who: HandId; readonly for: Meaning }
  | { readonly do: 'check gauge'; readonly gauge: string; readonly reading: string; readonly fit: 'fit' | 'unfit' };

export type BundleCommand =
  | { readonly do: 'open' }
  | { readonly do: 'resume' }
  | { readonly do: 'pause'; readonly reason?: string }
  | { readonly do: 'hand over'; readonly to: HandId }
  /** One of the changes is read: `change` counts from 1, and there are `of` of them. */
  | { readonly do: 'read changes'; readonly change: number; readonly of: number }
  | ({ readonly do: 'read caution'; readonly caution: number; readonly sheet?: Digest } & AtStep)
  /** `by` stands by at this step, for which the hand has not the skill. */
  | ({ readonly do: 'help'; readonly by: HandId } & AtStep)
  | ({ readonly do: 'start clock' } & AtPoint)
  /**
   * `typed` is what the hand typed: a value, the words of an option, text; empty for a tick, a computed point, a hold
   * point, and to stop a clock. `witness` is the second person of a hold point. `folded`: the explanations of the step were folded
   * away on the screen.
   */
  | ({
      readonly do: 'check';
      readonly place: number;
      readonly typed: string;
      readonly witness?: HandId;
      readonly folded?: true;
      /** The text in the hand's own language that was on the screen. */
      readonly sheet?: Digest;
      /** What the step takes from the bobbin, mm: counted with its last point. */
      readonly took?: string;
    } & AtPoint)
  /** So much is on the bobbin in the machine, mm; `takes` is what the step takes that is to be sewn with it. */
  | { readonly do: 'fit bobbin'; readonly wound: string; readonly takes?: string }
  /** A step that is sewn took so much from the bobbin, mm. */
  | ({ readonly do: 'use thread'; readonly took: string } & AtStep)
  /** Is finished on its own revision, although that is no longer in use. */
  | { readonly do: 'keep on' }
  | { readonly do: 'strike'; readonly entry: number; readonly reason: string }
  /** What the `If out:` of the step allows: this set goes back to an earlier step without a supervisor. */
  | { readonly do: 'go back'; readonly reason: string }
  /** `about: 'point'` stops at the point that is wanted now; a concession will then let that point through. */
  | { readonly do: 'hold'; readonly about: 'point' | 'bundle'; readonly reason: string; readonly name?: string }
  | { readonly do: 'settle'; readonly hold: string; readonly how: SettleHow; readonly reason: string }
  /** Puts the ticket's code on paper. */
  | { readonly do: 'print'; readonly what: Paper }
  | { readonly do: 'note'; readonly text: string }
  | { readonly do: 'finish'; readonly good: number };

export type SettleHow =
  /** `set` where the hold itself names none, or another one. */
  | { readonly as: 'rework'; readonly step: StepId; readonly set?: SetNumber }
  | {
      readonly as: 'recut';
      readonly step: StepId;
      readonly set?: SetNumber;
      readonly piece: string;
      readonly newPiece: string;
      readonly roll?: string;
      /** As older ledgers have it: whatever was typed was taken for a piece. */
      readonly kit?: 'not asked';
    }
  | { readonly as: 'concession'; readonly limit: string; readonly expires: string; readonly name?: string }
  | { readonly as: 'scrap'; readonly set: number };

interface AtStep {
  readonly set: SetNumber;
  readonly step: StepId;
}
interface AtPoint extends AtStep {
  readonly point: PointId;
}
