import type { App } from '../app/app.ts';
import { isFolded } from '../app/fold.ts';
import { lists } from '../app/lists.ts';
import { isOpen, modeOf } from '../app/mode.ts';
import { type Binding, keymaps } from '../keys/keymap.ts';
import type { Plain } from '../words/say.ts';
import { enterWords } from './enter-words.ts';

/** The keys that do something now, in the words of the moment. */
export function openKeys(app: App): readonly Binding[] {
  const enter = enterWords(app);
  const words = ({ move, words }: Binding): Plain => {
    if (move.move === 'enter') return enter ?? words;
    return move.move === 'order' && move.order === 'fold' && isFolded(app) ? 'unfold' : words;
  };
  const mode = modeOf(app);
  const rows = lists[mode]?.(app) ?? 0;
  return keymaps[mode]
    .filter(({ move, words }) => (move.move === 'order' ? isOpen(app, move.order) : words !== 'choose' || rows > 1))
    .map((binding) => ({ ...binding, words: words(binding) }));
}
