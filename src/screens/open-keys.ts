import type { App } from '../app/app.ts';
import { isFolded } from '../app/fold.ts';
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
  return keymaps[modeOf(app)]
    .filter(({ move }) => move.move !== 'order' || isOpen(app, move.order))
    .map((binding) => ({ ...binding, words: words(binding) }));
}
