import encodeQR from 'qr';

/**
 * The modules of a QR code (ISO/IEC 18004) that says exactly this text, row by row, true where it is dark; with the quiet zone of four
 * light modules around it. Up to 15 % of it may be dirty or torn (level M).
 */
export const qrModules = (text: string): readonly (readonly boolean[])[] =>
  encodeQR(text, 'raw', { ecc: 'medium', border: 4 });
