import { filled, type Refusal } from '../base/result.ts';
import type { English } from './english.ts';

/** Every message in another language; placeholders stand in braces, as in the English. */
export type Catalogue = Readonly<Record<English, string>>;

/** The names in braces of a message. */
type Names<Words extends string> = Words extends `${string}{${infer Name}}${infer Rest}` ? Name | Names<Rest> : never;

/** Messages that take no value. */
export type Plain = { readonly [K in English]: [Names<K>] extends [never] ? K : never }[English];

/** A message with its values put in; the compiler asks for just those that it names. */
export type Say = <Words extends English>(
  words: Words,
  ...values: [Names<Words>] extends [never] ? [] : [Readonly<Record<Names<Words>, string | number>>]
) => string;

/** Says messages in the language of the catalogue; without one in English, whose messages are their own names. */
export const saying =
  (catalogue: Catalogue | null): Say =>
  (words, ...[values = {}]) =>
    filled(catalogue?.[words] ?? words, values);

/** What commands and papers say. */
export const inEnglish: Say = saying(null);

/** A refusal in the language of the catalogue; what only a command says is English. */
export const sayRefusal = (catalogue: Catalogue | null, { words, values, message }: Refusal): string => {
  const said = (catalogue as Readonly<Record<string, string>> | null)?.[words];
  return said === undefined ? message : filled(said, values);
};
