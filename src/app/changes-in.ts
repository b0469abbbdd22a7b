import type { Difference } from '../procedure/difference.ts';
import { differences } from '../procedure/differences.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Say } from '../words/say.ts';
import { limitSaid } from './words.ts';

/** What differs between two texts of a procedure, said to whoever reads it. */
export const changesIn = (say: Say, before: Procedure, after: Procedure): readonly Difference[] =>
  differences(before, after, {
    word: (word) => say(word),
    limit: (limit) => limitSaid(say, limit),
    places: (places) => say('places: {places}', { places }),
    called: (name) => say('called {name}', { name }),
    drawn: (lengths) => say('on the drawing: {lengths}', { lengths }),
  });
