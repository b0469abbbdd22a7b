/**
 * One thing a person or a device did at the keyboard.
 *
 * `text` is one grapheme. `paste` is what the terminal marked as pasted, without control functions, line ends as `\n`; it never
 * presses a key. `scan` is what a device that types fast sent before its end key; the end key is part of it. Where a field was open its
 * letters have gone into it already. `unknown` is a whole
 * sequence nobody needs (mouse, focus, replies, Alt with a letter), kept only so that it is not mistaken for text.
 * `held` says that Enter repeats because nobody let go of it.
 */
export type Key =
  | { readonly key: 'text'; readonly text: string }
  | { readonly key: 'enter'; readonly held: 'no' | 'yes' }
  | { readonly key: 'paste'; readonly text: string }
  | { readonly key: 'scan'; readonly text: string }
  | { readonly key: 'unknown'; readonly bytes: string }
  | { readonly key: NamedKey };

/** Keys that say everything by their name. Ctrl-H, Ctrl-I, Ctrl-J and Ctrl-M are what a terminal sends for other keys. */
export type NamedKey =
  | 'escape'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'tab'
  | 'back-tab'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'page-up'
  | 'page-down'
  | 'home'
  | 'end'
  | FunctionKey
  | ControlKey;

type FunctionKey = `f${1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12}`;

type ControlKey =
  `ctrl-${'a' | 'b' | 'c' | 'd' | 'e' | 'f' | 'g' | 'k' | 'l' | 'n' | 'o' | 'p' | 'q' | 'r' | 's' | 't' | 'u' | 'v' | 'w' | 'x' | 'y' | 'z'}`;
