import { describe, expect, test } from 'vitest';
import type { Mode, Move } from '../../src/app/move.ts';
import { hints } from '../../src/keys/hints.ts';
import type { Key } from '../../src/keys/key.ts';
import { keymaps } from '../../src/keys/keymap.ts';
import { translate } from '../../src/keys/translate.ts';

const modes = Object.keys(keymaps) as readonly Mode[];
const played = modes.filter((mode) => mode !== 'over');
const text = (letter: string): Key => ({ key: 'text', text: letter });
const enter: Key = { key: 'enter', held: 'no' };
const said = (mode: Mode, key: Key): string => {
  const move = translate(mode, key);
  if (move === undefined) return 'nothing';
  return move.move === 'order' ? move.order : 'text' in move ? `${move.move} ${move.text}` : move.move;
};
const legend = (mode: Mode): string =>
  hints(keymaps[mode])
    .map(({ keys, words }) => `${keys} ${words}`)
    .join(' · ');

describe.each(played)('the keys of %s', (mode) => {
  test('no key has two meanings', () => {
    const keys = keymaps[mode].flatMap((binding) => binding.keys);
    expect(keys).toEqual([...new Set(keys)]);
  });

  test('every key has words, and does what its row of the table says', () => {
    for (const { keys, words, move } of keymaps[mode]) {
      expect(words).toMatch(/\S/);
      for (const key of keys) {
        const pressed = key === 'enter' ? enter : ((key.length === 1 ? text(key) : { key }) as Key);
        expect(translate(mode, pressed)).toEqual(move);
      }
    }
  });

  test('Ctrl-C leaves, and somebody who leans on Enter answers nothing', () => {
    expect(said(mode, { key: 'ctrl-c' })).toBe('quit');
    expect(said(mode, { key: 'enter', held: 'yes' })).toBe('nothing');
  });

  test('a paste is text and a scan is a scan, whatever letters are in it', () => {
    expect(said(mode, { key: 'paste', text: 'hold' })).toBe('type hold');
    expect(said(mode, { key: 'scan', text: 'B-1041' })).toBe('scan B-1041');
  });

  test('the key list can be reached, at once or by the escape key, unless a question stands open', () => {
    const byEscape = {
      words: 'escape',
      keys: 'escape',
      pin: 'escape',
      locked: 'escape',
      'form words': 'escape',
      'form choice': 'escape',
    };
    const at: string = byEscape[mode as keyof typeof byEscape] ?? 'keys';
    expect(said(mode, at === 'keys' ? text('?') : { key: 'escape' })).toBe(at);
  });
});

test('letters of either case are one key', () => {
  expect(said('confirm', text('H'))).toBe('hold');
  expect(said('one key', text('O'))).toBe('hand over');
});

test('at an empty number field letters are orders, and whatever a number can begin with begins the value', () => {
  for (const begins of ['3', '-', '−', '+', '.', ',', '½']) expect(said('value', text(begins))).toBe(`type ${begins}`);
  expect(said('value', text('h'))).toBe('hold');
  expect(said('value', text('x'))).toBe('nothing');
});

test('once a value or words are begun letters are text', () => {
  for (const mode of ['sign on', 'station', 'words', 'form words'] as const)
    expect(said(mode, text('h'))).toBe('type h');
  expect(said('value begun', text('n'))).toBe('type n');
});

test('what cannot be typed here is handed on, to be refused in words', () => {
  expect(said('choice', text('2'))).toBe('type 2');
  expect(said('caution', text('7'))).toBe('type 7');
  expect(said('look back', text('7'))).toBe('nothing');
});

test('when the program is over no key means anything', () => {
  const keys: readonly Key[] = [
    enter,
    text('h'),
    { key: 'ctrl-c' },
    { key: 'paste', text: 'a' },
    { key: 'scan', text: 'a' },
  ];
  expect(keys.map((key) => translate('over', key))).toEqual(keys.map((): Move | undefined => undefined));
});

test('the legend is the table, the most important first, keys of one meaning together', () => {
  expect(legend('confirm')).toBe(
    'enter done · u undo · r back to the step · f fold · h hold · l leave · p picture · b look back · n note · w new bobbin · o hand over · g big letters · ? keys · ↑ ↓ scroll · page up page down turn the page · ctrl-c leave the program',
  );
  expect(legend('station')).toBe(
    'enter take it up · ↑ ↓ choose · esc sign off · ctrl-c close · ? keys · backspace rub out · page up page down turn the page',
  );
});
