/** What a person typed, fit to stand in a sentence: cut short, in quotation marks, without characters that print nothing. */
export function quote(text: string): string {
  const start = Array.from(
    text
      .slice(0, LONGEST + 1)
      .trim()
      .replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '\uFFFD'),
  );
  const cut = start.length > LONGEST || text.length > LONGEST + 1;
  return `"${start.slice(0, LONGEST).join('')}${cut ? '…' : ''}"`;
}

const LONGEST = 24;
