/**
 * Whether the file of a photograph ends before its picture does, as after a copy that broke off. Markers of a JPEG: ITU-T T.81, B.1.1.3; the
 * last chunk of a PNG: PNG (W3C), 11.2.5.
 */
export function isCutShort(bytes: Uint8Array, type: 'jpg' | 'png'): boolean {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return type === 'png' ? !file.includes('IEND') : !file.includes(END_OF_IMAGE, scanOf(file));
}

const END_OF_IMAGE = Buffer.from([0xff, 0xd9]);
const START_OF_SCAN = 0xda;

/** Where the picture itself begins: behind the head, which may hold a small picture with an end of its own. */
function scanOf(file: Buffer): number {
  let at = 2;
  while (at + 3 < file.length) {
    const marker = file[at + 1] ?? 0;
    if (file[at] !== 0xff || marker === 0 || marker === 0xff) at += 1;
    else if (marker === START_OF_SCAN) return at;
    else at += 2 + file.readUInt16BE(at + 2);
  }
  return file.length;
}
