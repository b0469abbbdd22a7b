/** A refusal of one sentence, `why; what to do instead.`, taken apart for a finding; `mend` is null where it says no way out. */
export function wayOut(sentence: string): { readonly message: string; readonly mend: string | null } {
  const [why = sentence, way] = sentence.split(/; (?=[^;]*$)/);
  if (way === undefined) return { message: sentence, mend: null };
  return { message: `${why}.`, mend: way.charAt(0).toUpperCase() + way.slice(1) };
}
