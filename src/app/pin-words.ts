import { ok, type Result, refuse } from '../base/result.ts';

/** Whether this may become somebody's PIN; the refusal never repeats it. */
export function newPin(typed: string): Result<string> {
  const pin = typed.normalize('NFC');
  const shape = /^\d+$/.test(pin) ? /^\d{4,12}$/ : WITH_LETTERS;
  if (!shape.test(pin))
    return refuse(
      'pin-shape',
      'A PIN is 4 to 12 digits, or 6 to 64 letters and digits without a space: choose another.',
    );
  if (new Set(pin).size < 3 || isRun(pin))
    return refuse('pin-easy', 'That PIN is among the first anybody tries: choose one without a pattern.');
  return ok(pin);
}

const WITH_LETTERS = /^[\p{L}\p{M}\p{N}\p{P}\p{S}]{6,64}$/u;

/** Each character follows the one before, up or down, as in 1234 or 9876. */
function isRun(pin: string): boolean {
  const codes = [...pin].map((each) => each.codePointAt(0) ?? 0);
  return [1, -1].some((by) => codes.every((code, at) => at === 0 || code - (codes[at - 1] ?? 0) === by));
}
