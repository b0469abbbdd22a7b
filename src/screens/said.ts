import { oneLine } from '../base/text.ts';
import { type Span, type Style, span } from '../widgets/row.ts';

/**
 * Text of one meaning, whoever wrote it. Names, tickets, notes and procedures come from outside: what a terminal would obey is made
 * visible here, before anything is measured or broken into rows.
 */
export const said = (text: string, style: Style = 'plain'): Span => span(oneLine(text), style);
