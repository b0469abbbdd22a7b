/**
 * A refusal is an ordinary answer, not an error: a plain sentence that says why not and what to do instead.
 * `rule` is a short stable name in kebab case, for tests and for programs that read `--json`.
 */
export interface Refusal {
  readonly rule: string;
  readonly message: string;
}

export type Result<T, E = Refusal> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

export const refuse = (rule: string, message: string): { readonly ok: false; readonly error: Refusal } => ({
  ok: false,
  error: { rule, message },
});
