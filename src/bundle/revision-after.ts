/** Revisions are A to Z, then AA, AB and so on. */
export function revisionAfter(last: string | undefined): string {
  if (!last) return 'A';
  const head = last.slice(0, -1);
  return last.endsWith('Z')
    ? `${revisionAfter(head || undefined)}A`
    : head + String.fromCharCode(last.charCodeAt(last.length - 1) + 1);
}
