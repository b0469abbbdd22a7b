import type { Key, NamedKey } from './key.ts';

/**
 * The key behind a complete escape sequence, as xterm, the VT family, the Linux console and rxvt send them; `unknown` for
 * the rest. Shift, Alt and Ctrl on a named key are not told apart: a heavy hand on Shift still means the arrow.
 */
export function keyOfSequence(bytes: string): Key {
  const unknown: Key = { key: 'unknown', bytes };
  const console = /^\x1b\[\[([A-E])$/.exec(bytes);
  if (console) return named(CONSOLE_FUNCTION[console[1] ?? ''], unknown);
  const shifted = /^\x1bO([0-9;]*)([@-~])$/.exec(bytes);
  if (shifted) return keyOfSS3(shifted[2] ?? '', unknown);
  const control = /^\x1b\[([0-9;:]*)([@-~])$/.exec(bytes);
  if (control) return keyOfCSI(control[1] ?? '', control[2] ?? '', unknown);
  return unknown;
}

const named = (name: NamedKey | undefined, otherwise: Key): Key => (name ? { key: name } : otherwise);

function keyOfCSI(parameters: string, final: string, unknown: Key): Key {
  const first = /^\d*/.exec(parameters)?.[0] ?? '';
  switch (final) {
    case '~':
      return named(NUMBERED[first], unknown);
    case 'u':
      return keyOfCode(Number(first), unknown);
    case 'P':
    case 'Q':
    case 'R':
    case 'S':
      // With other numbers in front these are reports, such as where the cursor is.
      return first === '' || first === '1' ? named(FUNCTION[final], unknown) : unknown;
    default:
      return named(LETTERED[final], unknown);
  }
}

function keyOfSS3(final: string, unknown: Key): Key {
  if (final === 'M') return { key: 'enter', held: 'no' };
  const keypad = KEYPAD[final];
  if (keypad) return { key: 'text', text: keypad };
  return named(LETTERED[final] ?? FUNCTION[final], unknown);
}

function keyOfCode(code: number, unknown: Key): Key {
  switch (code) {
    case 13:
      return { key: 'enter', held: 'no' };
    case 27:
      return { key: 'escape' };
    case 9:
      return { key: 'tab' };
    case 127:
      return { key: 'backspace' };
    default:
      return unknown;
  }
}

type Table = Readonly<Record<string, NamedKey>>;

const LETTERED: Table = { A: 'up', B: 'down', C: 'right', D: 'left', H: 'home', F: 'end', Z: 'back-tab' };

const FUNCTION: Table = { P: 'f1', Q: 'f2', R: 'f3', S: 'f4' };

const CONSOLE_FUNCTION: Table = { A: 'f1', B: 'f2', C: 'f3', D: 'f4', E: 'f5' };

const NUMBERED: Table = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'page-up',
  6: 'page-down',
  7: 'home',
  8: 'end',
  11: 'f1',
  12: 'f2',
  13: 'f3',
  14: 'f4',
  15: 'f5',
  17: 'f6',
  18: 'f7',
  19: 'f8',
  20: 'f9',
  21: 'f10',
  23: 'f11',
  24: 'f12',
};

/** The number pad when the terminal has it in application mode. */
const KEYPAD: Readonly<Record<string, string>> = {
  ...Object.fromEntries([...'0123456789'].map((digit, index) => [String.fromCharCode(0x70 + index), digit])),
  ' ': ' ',
  X: '=',
  j: '*',
  k: '+',
  l: ',',
  m: '-',
  n: '.',
  o: '/',
};
