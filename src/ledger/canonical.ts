import canonicalize from 'canonicalize';
import type { Json } from './entry.ts';

/**
 * The value as RFC 8785 canonical JSON: the one text that is hashed, kept and compared.
 * Throws for what has no such text (lone surrogates, numbers that are not finite, circles): whoever passes these has a bug.
 */
export function canonicalText(value: Json): string {
  let text: string | undefined;
  try {
    text = canonicalize(value);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Error(`this value has no canonical JSON text: ${why}`, { cause: error });
  }
  if (text === undefined || !text.isWellFormed()) throw new Error('this value has no canonical JSON text');
  return text;
}
