import { showHidden } from '../../base/text.ts';

/** Markup that may stand in a page as it is. Only `html` makes it, so that text from outside is text wherever it comes. */
export interface Html {
  readonly markup: string;
}

type Slot = string | number | Html | readonly Html[];

/**
 * Markup with what is put into it: markup as it is, anything else as words. What hides in words is shown as marks, and what a browser
 * would read as markup is written so that it does not; that holds between tags and within quoted attributes.
 */
export function html(parts: TemplateStringsArray, ...slots: readonly Slot[]): Html {
  return { markup: parts.map((part, at) => part + (at < slots.length ? markupOf(slots[at] ?? '') : '')).join('') };
}

export const nothing: Html = { markup: '' };

/** Markup, or nothing where there is nothing to say. */
export const where = <T>(value: T | null | undefined | false | '', draw: (value: T) => Html): Html =>
  value === null || value === undefined || value === false || value === '' ? nothing : draw(value);

function markupOf(slot: Slot): string {
  if (typeof slot === 'number') return String(slot);
  if (typeof slot === 'string') return showHidden(slot).replace(SPECIAL, (sign) => `&#${sign.charCodeAt(0)};`);
  return 'markup' in slot ? slot.markup : slot.map(({ markup }) => markup).join('');
}

const SPECIAL = /[&<>"'`]/g;
