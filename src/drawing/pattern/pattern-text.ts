/**
 * The text of a DXF file: as UTF-8 where it is that, else in the letters that its header names (`$DWGCODEPAGE`, as later releases write it
 * after 3), else in those of western Europe. Names of code pages from memory.
 */
export function patternText(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const western = new TextDecoder('windows-1252').decode(bytes);
    const page = /\$DWGCODEPAGE\s+3\s+ANSI_(\d{3,4})\s/i.exec(western)?.[1] ?? '';
    const letters = OF_EAST_ASIA.get(page) ?? (/^(?:125[0-8]|874)$/.test(page) ? `windows-${page}` : undefined);
    return letters === undefined ? western : new TextDecoder(letters).decode(bytes);
  }
}

const OF_EAST_ASIA: ReadonlyMap<string, string> = new Map([
  ['932', 'shift_jis'],
  ['936', 'gbk'],
  ['949', 'euc-kr'],
  ['950', 'big5'],
]);
