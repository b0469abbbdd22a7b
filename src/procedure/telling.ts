import type { Limit } from '../measure/limit.ts';
import { limitWords } from '../measure/limit-words.ts';
import type { Caution, Point, Procedure } from './procedure.ts';

/** Words that a procedure chooses from a few. */
type FixedWord =
  | Point['kind']
  | Caution['word']
  | Procedure['work']
  | Procedure['readCautions']
  | 'for the whole bundle'
  | 'for each set'
  | 'cannot be undone';

/** How that is said which is no text of the procedure's own: in English, or in the words of whoever reads. */
export interface Telling {
  readonly word: (word: FixedWord) => string;
  readonly limit: (limit: Limit) => string;
  readonly places: (places: number) => string;
  readonly called: (name: string) => string;
  /** Which lengths of the drawing a limit is of. */
  readonly drawn: (lengths: string) => string;
}

export const plainTelling: Telling = {
  word: (word) => word,
  limit: limitWords,
  places: (places) => `places: ${places}`,
  called: (name) => `called ${name}`,
  drawn: (lengths) => `on the drawing: ${lengths}`,
};
