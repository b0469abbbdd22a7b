import JsBarcode from 'jsbarcode';

/**
 * The modules of a Code 128 bar code (ISO/IEC 15417) that says exactly this text, true where there is a bar. To its left and right
 * belongs a quiet zone of `BAR_QUIET` modules. Null for letters that Code 128 has not, and for nothing.
 */
export function code128Modules(text: string): readonly boolean[] | null {
  if (!/^[ -~]+$/.test(text)) return null;
  const drawn: { encodings?: readonly { readonly data: string }[] } = {};
  JsBarcode(drawn, text, { format: 'CODE128' });
  return [...(drawn.encodings?.[0]?.data ?? '')].map((module) => module === '1');
}

export const BAR_QUIET = 10;
