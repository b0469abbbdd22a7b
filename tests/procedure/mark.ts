/** The text without the mark `¦`. */
export const plain = (bad: string): string => bad.replace('¦', '');

/** Line and column of the mark `¦`, as `line:column`. */
export const placeOfMark = (text: string): string => {
  const lines = text.slice(0, text.indexOf('¦')).split('\n');
  return `${lines.length}:${(lines.at(-1) ?? '').length + 1}`;
};
