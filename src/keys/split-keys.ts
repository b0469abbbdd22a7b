import { graphemes } from '../base/columns.ts';
import { stripControls } from '../base/strip-controls.ts';
import type { Key, NamedKey } from './key.ts';
import { keyOfSequence } from './sequences.ts';

/** What has come in and is not yet a key. `ms` is when the last of it came. */
export type SplitState =
  | { readonly in: 'keys'; readonly pending: string; readonly last: 'cr' | 'other'; readonly ms: number }
  | { readonly in: 'paste'; readonly pending: string; readonly text: string; readonly ms: number };

export const initialSplit: SplitState = { in: 'keys', pending: '', last: 'other', ms: 0 };

/**
 * Splits what the keyboard sent into keys, wherever the chunks happen to be cut. A chunk is decoded text: whoever reads bytes
 * puts a `StringDecoder` in front, so that no character is cut. `ms` is any clock that never goes back, in milliseconds.
 */
export function splitKeys(state: SplitState, chunk: string, ms: number): readonly [SplitState, readonly Key[]] {
  const [waited, keys] = afterQuiet(state, ms);
  const found: Key[] = [...keys];
  let now: SplitState = waited;
  let rest = chunk;
  do {
    [now, rest] = now.in === 'paste' ? readPaste(now, rest, ms, found) : readKeys(now, rest, ms, found);
  } while (rest !== '');
  return [now, found];
}

/** When `afterQuiet` has something to decide if nothing more comes; `undefined` when nothing is waiting. */
export function splitDeadline(state: SplitState): number | undefined {
  if (state.in === 'paste') return state.ms + PASTE_QUIET;
  if (state.pending === '') return undefined;
  return state.ms + (state.pending === ESC ? ESCAPE_QUIET : SEQUENCE_QUIET);
}

/**
 * Decides what waits once it has waited long enough: an Escape by itself after 50 ms, a sequence that never ended after 200 ms
 * (a slow line may pause in the middle of an arrow key), a paste that never ended after 2 s.
 */
export function afterQuiet(state: SplitState, ms: number): readonly [SplitState, readonly Key[]] {
  const deadline = splitDeadline(state);
  if (deadline === undefined || ms < deadline) return [state, []];
  const next: SplitState = { in: 'keys', pending: '', last: 'other', ms };
  if (state.in === 'paste') return [next, [pasted(state.text + state.pending)]];
  return [next, [state.pending === ESC ? { key: 'escape' } : { key: 'unknown', bytes: state.pending }]];
}

const ESC = '\x1b';
const ESCAPE_QUIET = 50;
const SEQUENCE_QUIET = 200;
const PASTE_QUIET = 2000;
const PASTE_START = '\x1b[200~';
const PASTE_END = '\x1b[201~';
/** Nobody pastes more into a field; what comes beyond it is dropped, still without pressing a key. UTF-16 units. */
const PASTE_MOST = 262_144;
/** No keyboard and no reply is longer; what is longer is given up as unknown. */
const SEQUENCE_MOST = 1024;

type Step = readonly [SplitState, string];

function readPaste(state: SplitState & { readonly in: 'paste' }, chunk: string, ms: number, found: Key[]): Step {
  const text = state.pending + chunk;
  const end = text.indexOf(PASTE_END);
  if (end >= 0) {
    found.push(pasted(state.text + text.slice(0, end)));
    return [{ in: 'keys', pending: '', last: 'other', ms }, text.slice(end + PASTE_END.length)];
  }
  const kept = lengthOfBegunEnd(text);
  const body = text.slice(0, text.length - kept);
  const room = Math.max(0, PASTE_MOST - state.text.length);
  return [{ in: 'paste', pending: text.slice(text.length - kept), text: state.text + body.slice(0, room), ms }, ''];
}

function lengthOfBegunEnd(text: string): number {
  for (let length = PASTE_END.length - 1; length > 0; length--) {
    if (text.endsWith(PASTE_END.slice(0, length))) return length;
  }
  return 0;
}

const pasted = (text: string): Key => ({ key: 'paste', text: stripControls(text.replace(/\r\n?/g, '\n')) });

function readKeys(state: SplitState & { readonly in: 'keys' }, chunk: string, ms: number, found: Key[]): Step {
  const text = state.pending + chunk;
  let last = ms - state.ms < ESCAPE_QUIET ? state.last : 'other';
  let at = 0;
  while (at < text.length) {
    const length = lengthOfNext(text, at);
    if (length === 'more') return [{ in: 'keys', pending: text.slice(at), last, ms }, ''];
    const one = text.slice(at, at + length);
    at += length;
    if (one === PASTE_START) return [{ in: 'paste', pending: '', text: '', ms }, text.slice(at)];
    const isRestOfCrLf = one === '\n' && last === 'cr';
    last = one === '\r' ? 'cr' : 'other';
    if (isRestOfCrLf) continue;
    for (const key of keysOf(one)) found.push(key);
  }
  return [{ in: 'keys', pending: '', last, ms }, ''];
}

// An escape sequence by ECMA-48 5.4 and 5.6, whole or begun. Two are not of that grammar: the Linux console's function keys
// (a second `[`), and the oldest mouse report (`M` and three characters).
const WHOLE =
  /(?:\x1b\[\[[\s\S]|\x1b\[M[\s\S]{3}|\x1b\[(?![[M])[0-?]*[ -/]*[@-~]|\x1bO[0-9;]*[@-~ ]|\x1b[\]PX^_][^\x1b\x07\x18\x1a]*(?:\x1b\\|[\x07\x18\x1a]))/y;
const BEGUN = /\x1b(?:\[(?:\[|M[\s\S]{0,2}|[0-?]*[ -/]*)?|O[0-9;]*|[\]PX^_][^\x1b\x07\x18\x1a]*\x1b?)?$/y;
/** A sequence that broke off in the middle: it is over where a character comes that cannot belong to it. */
const BROKEN = /\x1b(?:\[[0-?]*[ -/]*|O[0-9;]+|[\]PX^_][^\x1b\x07\x18\x1a]*)/y;
const PRINTABLE = /[^\x00-\x1f\x7f-\x9f]+/y;

function lengthOfNext(text: string, at: number): number | 'more' {
  if (text[at] !== ESC) return lengthOf(PRINTABLE, text, at) ?? 1;
  const whole = lengthOf(WHOLE, text, at);
  if (whole !== undefined) return whole;
  const begun = lengthOf(BEGUN, text, at);
  if (begun !== undefined) return begun > SEQUENCE_MOST ? begun : 'more';
  const broken = lengthOf(BROKEN, text, at);
  if (broken !== undefined) return broken;
  // A control behind an Escape is a key of its own; a printable one was typed together with Alt.
  const next = lengthOf(PRINTABLE, text, at + 1);
  return next === undefined ? 1 : 1 + String.fromCodePoint(text.codePointAt(at + 1) ?? 0).length;
}

function lengthOf(pattern: RegExp, text: string, at: number): number | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0].length;
}

function keysOf(one: string): readonly Key[] {
  if (one === ESC) return [{ key: 'escape' }];
  if (one.startsWith(ESC)) return [keyOfSequence(one)];
  const control = CONTROLS[one];
  if (control) return [control];
  if (/^[\x00-\x1f\x7f-\x9f]/.test(one)) return [{ key: 'unknown', bytes: one }];
  return graphemes(one).map((text): Key => ({ key: 'text', text }));
}

const CONTROLS: Readonly<Record<string, Key>> = {
  '\r': { key: 'enter', held: 'no' },
  '\n': { key: 'enter', held: 'no' },
  '\t': { key: 'tab' },
  '\b': { key: 'backspace' },
  '\x7f': { key: 'backspace' },
  ...Object.fromEntries(
    [...'abcdefgklnopqrstuvwxyz'].map((letter): [string, Key] => [
      String.fromCharCode(letter.charCodeAt(0) - 0x60),
      { key: `ctrl-${letter}` as NamedKey },
    ]),
  ),
};
