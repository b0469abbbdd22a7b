/**
 * A refusal is an ordinary answer, not an error: a plain sentence that says why not and what to do instead.
 * `rule` is a short stable name in kebab case, for tests and for programs that read `--json`.
 */
export interface Refusal {
  readonly rule: string;
  readonly message: string;
  /** The sentence as it stands in a catalogue, and what is put into its braces, so that it can be said in another language. */
  readonly words: string;
  readonly values: Values;
}

type Values = Readonly<Record<string, string | number | null>>;

export type Result<T, E = Refusal> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

/** Refuses in one sentence; what stands in braces is put in from `values`. */
export const refuse = (
  rule: string,
  words: string,
  values: Values = {},
): { readonly ok: false; readonly error: Refusal } => ({
  ok: false,
  error: { rule, message: filled(words, values), words, values },
});

/** A sentence with the values put in its braces; braces without a value stay. */
export const filled = (words: string, values: Values): string =>
  words.replace(/\{(\w+)\}/g, (whole, name: string) => (Object.hasOwn(values, name) ? String(values[name]) : whole));
