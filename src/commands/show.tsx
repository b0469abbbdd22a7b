import chalk from 'chalk';
import { hearing, modeOf } from '../app/mode.ts';
import type { Move } from '../app/move.ts';
import type { AppStore } from '../app/store.ts';
import type { Key } from '../keys/key.ts';
import { translate } from '../keys/translate.ts';
import { pageOf } from '../screens/page-of.ts';
import { Screen } from '../screens/screen.tsx';
import { isTooSmall } from '../screens/too-small.ts';
import { followGraphics } from '../terminal/follow-graphics.ts';
import { giveBack } from '../terminal/give-back.ts';
import { mount } from '../terminal/mount.tsx';
import { openTerminal, type Terminal } from '../terminal/open-terminal.ts';
import { questionsFor } from '../terminal/questions.ts';
import { scrollRange } from '../widgets/page.ts';
import { themeFor } from '../widgets/theme.ts';
import type { Io } from './io.ts';
import { truePictures } from './true-pictures.ts';

interface Shown {
  readonly store: AppStore;
  readonly io: Io;
  /** Is handed the terminal's bell once the terminal is open. */
  readonly onBell: (ring: () => void) => void;
}

/**
 * The session on the whole screen, until the program is over; answers its exit code. The terminal is given back however it ends:
 * signals and a closed window record the pause first, and when the machine breaks the trouble is thrown after the terminal is back.
 */
export async function showProgram({ store, io, onBell }: Shown): Promise<number> {
  const terminal = openTerminal(io);
  const stopGiving = giveBack({ terminal, exit: io.exit, beforeEnd: () => leave(store) });
  onBell(terminal.bell);
  const pictures = truePictures();
  mount(<Screen store={store} theme={themeFor(io.env, chalk.level)} pictures={pictures} />, terminal);
  terminal.onKeys(inTurn(store, terminal), () => hearing(modeOf(store.app())));
  // What the terminal shows is asked once keys are read, since the answers come in with them, and after the first frame.
  const questions = questionsFor(io.env);
  if (questions !== null) followGraphics(terminal, questions, pictures.showBy);
  const seconds = setInterval(() => store.tell({ news: 'second' }), 1000);
  try {
    return await store.over;
  } finally {
    clearInterval(seconds);
    terminal.close();
    stopGiving();
  }
}

/** As Ctrl-C does: the bundle is left, to be taken up again. */
async function leave(store: AppStore): Promise<void> {
  store.tell({ news: 'move', move: { move: 'order', order: 'quit' } });
  await settledAtAll(store);
}

/** Whoever awaits the end of the program hears what broke. */
const settledAtAll = (store: AppStore): Promise<void> => store.settled().catch(() => {});

/**
 * A key means what the screen says at its turn: each waits until all that came of the key before is done, since that may have
 * opened a field or gone on to another point. A burst of keys so goes to the points it was meant for.
 */
function inTurn(store: AppStore, terminal: Terminal): (key: Key) => void {
  let turn = Promise.resolve();
  return (key) => {
    turn = turn.then(async () => {
      await settledAtAll(store);
      const move = translate(modeOf(store.app()), key);
      // Nobody answers what the screen cannot show.
      const isSeen = !isTooSmall(terminal.size()) || (move?.move === 'order' && move.order === 'quit');
      if (move && isSeen) store.tell({ news: 'move', move: bounded(move, store, terminal) });
    });
  };
}

/** A screen that asks for nothing but to be read. */
const onlyRead = (store: AppStore): boolean => ['caution', 'changes'].includes(modeOf(store.app()));

/** What is to be read is read when its end has been in sight: until then enter turns the page. */
function turned(move: Move, store: AppStore, terminal: Terminal): Move {
  const within = scrollRange(pageOf(store.app(), terminal.size()));
  return store.app().scroll < within.most ? { move: 'page down', within } : move;
}

/** Scrolling ends where the screen ends; how far that is, only the screen knows. */
function bounded(move: Move, store: AppStore, terminal: Terminal): Move {
  switch (move.move) {
    case 'up':
    case 'down':
    case 'page up':
    case 'page down':
      return { ...move, within: scrollRange(pageOf(store.app(), terminal.size())) };
    case 'enter':
      return onlyRead(store) ? turned(move, store, terminal) : move;
    default:
      return move;
  }
}
