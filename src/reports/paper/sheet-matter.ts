import type { Digest } from '../../base/brand.ts';
import type { Language } from '../../base/language.ts';
import type { Bundle } from '../../bundle/bundle.ts';
import type { Release, Room } from '../../bundle/room.ts';
import type { Procedure } from '../../procedure/procedure.ts';
import type { Say } from '../../words/say.ts';

/** What a paper itself says; everything else on it is the procedure's, the ledger's or a name. */
export interface PaperWords {
  readonly language: Language;
  readonly say: Say;
}

/** All that a sheet is made of. */
export interface SheetMatter extends PaperWords {
  readonly procedure: Procedure;
  /** The text it is printed from; a draft is none released. */
  readonly text: {
    readonly digest: Digest;
    /** Where the procedure stands in another language: the text that it was read from. */
    readonly sheet: Digest | null;
    readonly release: Pick<Release, 'revision' | 'by' | 'at' | 'withdrawn'> | null;
  };
  readonly room: Room;
  /** The bundle a sheet is for; null for a form that may be copied at will. */
  readonly ticket: OnTicket | null;
  /** Pictures by their address in the text, as they were when it was released. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
  readonly paper: PaperSize;
  /** When it is printed, RFC 3339 with offset. */
  readonly at: string;
}

/** A bundle as it stood when its code was printed. */
export interface OnTicket {
  readonly bundle: Bundle;
  /** 0 for the first paper that carries the code. */
  readonly copy: number;
}

/** Names that CSS knows too. */
export type PaperSize = 'A4' | 'Letter';
