import type { Mode, Move } from '../app/move.ts';
import { assertNever } from '../base/assert-never.ts';
import type { Key } from './key.ts';
import { keymaps, type Typing, typing } from './keymap.ts';

/**
 * What a key comes to in this mode; nothing when it means nothing there. An Enter that repeats because somebody leans on it answers
 * nothing. A paste is text wherever it lands, and never an order.
 */
export function translate(mode: Mode, key: Key): Move | undefined {
  switch (key.key) {
    case 'paste':
      return mode === 'over' ? undefined : { move: 'type', text: key.text };
    case 'scan':
      return mode === 'over' ? undefined : { move: 'scan', text: key.text };
    case 'unknown':
      return undefined;
    case 'enter':
      return key.held === 'yes' ? undefined : bound(mode, 'enter');
    case 'text':
      return bound(mode, key.text.toLowerCase()) ?? typed(typing[mode], key.text);
    default:
      return bound(mode, key.key);
  }
}

const bound = (mode: Mode, name: string): Move | undefined =>
  keymaps[mode].find(({ keys }) => keys.includes(name))?.move;

function typed(takes: Typing, text: string): Move | undefined {
  switch (takes) {
    case 'text':
      return { move: 'type', text };
    case 'number':
      return BEGINS_A_VALUE.test(text) ? { move: 'type', text } : undefined;
    case 'nothing':
      return undefined;
    default:
      return assertNever(takes);
  }
}

/** Digits, signs, decimal signs, and fractions that are one character. */
const BEGINS_A_VALUE = /^[\d+\-−.,½¼¾⅐-⅞]$/u;
