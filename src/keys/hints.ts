import type { Plain } from '../words/say.ts';
import type { Binding } from './keymap.ts';

/** Keys and their words as a person reads them, in the order of the legend. Keys with the same words stand together. */
export function hints(bindings: readonly Binding[]): readonly { readonly keys: string; readonly words: Plain }[] {
  const shown = new Map<Plain, string>();
  for (const { keys, words } of bindings.toSorted((a, b) => a.rank - b.rank)) {
    const before = shown.get(words);
    const label = keyLabel(keys[0] ?? '');
    shown.set(words, before === undefined ? label : `${before} ${label}`);
  }
  return [...shown].map(([words, keys]) => ({ keys, words }));
}

const keyLabel = (key: string): string => LABELS[key] ?? key;

const LABELS: Readonly<Record<string, string>> = {
  up: '↑',
  down: '↓',
  escape: 'esc',
  'page-up': 'page up',
  'page-down': 'page down',
  'ctrl-c': 'ctrl-c',
};
