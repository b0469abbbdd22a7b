import type { Bundle } from '../bundle/bundle.ts';
import { fileName } from './new-file.ts';

/** The file that the next paper of a ticket goes into unless another is named: which copy it is stands in its name, too. */
export const paperName = ({ ticket, printed }: Pick<Bundle, 'ticket' | 'printed'>, ending: string): string =>
  `${fileName(ticket)}${printed > 0 ? `.copy-${printed}` : ''}${ending}`;
