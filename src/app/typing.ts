import { graphemes } from '../base/columns.ts';
import { oneLine } from '../base/text.ts';

/** What stands in a field after more was typed: as many characters as it takes, whatever hides in them shown as marks. */
export const typedOn = (field: string, text: string, most: number): string =>
  graphemes(field + oneLine(text))
    .slice(0, most)
    .join('');

/** What stands in a field after the last character was rubbed out. */
export const rubbedOutOf = (field: string): string => graphemes(field).slice(0, -1).join('');
