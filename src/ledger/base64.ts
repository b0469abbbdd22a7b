/** Bytes as RFC 4648 section 4 base64, on one line, with padding. */
export const toBase64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

/** The bytes of a base64 text; `undefined` unless it is written exactly as `toBase64` writes it, to the last bit. */
export function fromBase64(text: string): Buffer | undefined {
  const bytes = Buffer.from(text, 'base64');
  return bytes.toString('base64') === text ? bytes : undefined;
}
