import { qrModules } from './paper/qr-code.ts';

export interface TerminalQr {
  readonly lines: readonly string[];
  /** How wide it is. */
  readonly columns: number;
}

/**
 * The QR code of a text for a terminal, two modules in a character, with its quiet zone. Light is drawn and dark left open, which is right
 * on a dark ground; whoever has colours sets black letters on white turned round, and is right on any.
 */
export function terminalQr(text: string): TerminalQr {
  const rows = qrModules(text);
  const size = rows.length;
  const isLight = (x: number, y: number): boolean => !rows[y]?.[x];
  const lines = Array.from({ length: Math.ceil(size / 2) }, (_, row) =>
    Array.from(
      { length: size },
      (__, x) => HALVES[(isLight(x, 2 * row) ? 2 : 0) + (isLight(x, 2 * row + 1) ? 1 : 0)],
    ).join(''),
  );
  return { lines, columns: size };
}

/** By whether the upper half is light, and the lower. */
const HALVES = [' ', '▄', '▀', '█'] as const;
