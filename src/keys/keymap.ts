import type { Mode, Move, Order } from '../app/move.ts';
import type { Plain } from '../words/say.ts';

/** One thing a key does in a mode. */
export interface Binding {
  /** Letters (small; large ones do the same) or names of keys as `Key` has them. The first is the one that is shown. */
  readonly keys: readonly string[];
  readonly move: Move;
  /** For the legend and the key help. Bindings of one mode with the same words are shown as one. */
  readonly words: Plain;
  /** Place in the lists of keys, the smallest first. From `HELP_ONLY` on the legend leaves it to the key help. */
  readonly rank: number;
}

export const HELP_ONLY = 50;

/** What becomes of a letter, digit or sign that is bound to nothing. */
export type Typing =
  /** It is typed: into the field, or, where there is none, it is refused in so many words and so is the enter behind it. */
  | 'text'
  /** It goes into the field when a value can begin with it. */
  | 'number'
  | 'nothing';

const order = (keys: string, name: Order, words: Plain, rank: number): Binding => ({
  keys: [keys],
  move: { move: 'order', order: name },
  words,
  rank,
});
const does = (keys: readonly string[], move: 'enter' | 'escape' | 'erase', words: Plain, rank = 1): Binding => ({
  keys,
  move: { move },
  words,
  rank,
});

const help = order('?', 'keys', 'keys', 49);
const quit = order('ctrl-c', 'quit', 'leave the program', 80);
/** At the station there is no other way out, so the legend shows it. */
const out: Binding = { ...quit, words: 'close', rank: 8 };

/** Tab ends a line for some scanners and calipers. */
const enter = (words: Plain): Binding => does(['enter', 'tab'], 'enter', words);
const press = (words: Plain): Binding => does(['enter'], 'enter', words);
const erase = does(['backspace', 'delete'], 'erase', 'rub out', 60);

const pages: readonly Binding[] = [
  { keys: ['page-up'], move: { move: 'page up' }, words: 'turn the page', rank: 71 },
  { keys: ['page-down'], move: { move: 'page down' }, words: 'turn the page', rank: 71 },
];
const scroll: readonly Binding[] = [
  { keys: ['up'], move: { move: 'up' }, words: 'scroll', rank: 70 },
  { keys: ['down'], move: { move: 'down' }, words: 'scroll', rank: 70 },
  ...pages,
];
/** Where there is mostly something to read, the legend says how to read on. */
const read: readonly Binding[] = scroll.map((binding) =>
  binding.words === 'scroll' ? { ...binding, rank: 2 } : binding,
);
const choose: readonly Binding[] = [
  { keys: ['up'], move: { move: 'up' }, words: 'choose', rank: 2 },
  { keys: ['down'], move: { move: 'down' }, words: 'choose', rank: 2 },
  ...pages,
];

const undo = order('u', 'undo', 'undo', 3);
/** Where letters are typed, one key undoes all the same. */
const undoTyping = order('ctrl-u', 'undo', 'undo', 3);
const goBack = order('r', 'go back', 'back to the step', 4);
const hold = order('h', 'hold', 'hold', 5);
const settle = order('s', 'settle', 'settle', 5);
const leave = order('l', 'leave', 'leave', 6);
/** On a narrow screen the picture has no other place. */
const picture = order('p', 'picture', 'picture', 7);
const lookBack = order('b', 'look back', 'look back', 8);
const note = order('n', 'note', 'note', 9);
const handOver = order('o', 'hand over', 'hand over', 10);
/** Only experts have it, and only where nothing can go wrong for good: where it does something it stands far in front. */
const fold = order('f', 'fold', 'fold', 4);
/** Where the station reckons with bobbins. */
const bobbin = order('w', 'bobbin', 'new bobbin', 10);
const big = order('g', 'big', 'big letters', 11);

const onDraft: readonly Binding[] = [
  order('e', 'edit', 'edit', 3),
  order('c', 'compare', 'what changed', 4),
  order('r', 'rehearse', 'rehearse', 5),
  order('n', 'release', 'release', 6),
];

const asRead = order('v', 'reading', 'as it is read', 8);

const atBundle: readonly Binding[] = [undo, hold, lookBack, picture, note, leave, handOver, big, help, quit];
const atPoint: readonly Binding[] = [goBack, fold, bobbin, ...atBundle];

/**
 * The keys of every mode: what is pressed, what it comes to, and the words for it. The legend at the foot of each screen, the key help
 * and the page of keys in the documentation are all drawn from this table.
 */
export const keymaps: Readonly<Record<Mode, readonly Binding[]>> = {
  'sign on': [enter('sign on'), ...choose, erase, does(['escape'], 'escape', 'clear', 61), help, out],
  station: [enter('take it up'), ...choose, erase, does(['escape'], 'escape', 'sign off', 4), help, out],
  desk: [
    enter('open'),
    ...choose,
    order('k', 'keep on', 'finish it on its revision', 6),
    ...onDraft,
    asRead,
    does(['escape'], 'escape', 'sign off', 20),
    help,
    out,
  ],
  draft: [
    does(['enter', 'escape'], 'escape', 'back'),
    ...onDraft,
    order('f', 'findings', 'what to mend', 7),
    asRead,
    ...scroll,
    help,
    quit,
  ],
  caution: [press('I have read this'), ...scroll, fold, ...atBundle],
  changes: [press('I have read this'), ...read, ...atBundle],
  confirm: [press('done'), ...scroll, ...atPoint],
  value: [enter('record'), ...scroll, ...atPoint],
  'value begun': [enter('record'), ...scroll, undoTyping, erase, does(['escape'], 'escape', 'clear', 3), help, quit],
  words: [enter('record'), ...scroll, undoTyping, erase, does(['escape'], 'escape', 'other keys', 4), quit],
  'one key': [does(['escape', 'enter'], 'escape', 'back to the field', 12), ...atPoint],
  choice: [press('record'), ...choose, erase, ...atPoint],
  hold: [settle, ...scroll, lookBack, note, leave, handOver, big, help, quit],
  finished: [press('go on'), ...read, lookBack, help, quit],
  keys: [does(['enter', 'escape', '?'], 'escape', 'back'), ...read, quit],
  'look back': [
    order('x', 'strike', 'strike', 1),
    ...choose,
    does(['escape', 'enter', 'b'], 'escape', 'back', 3),
    help,
    quit,
  ],
  picture: [does(['escape', 'enter', 'p'], 'escape', 'back', 1), ...choose, help, quit],
  'form words': [enter('go on'), erase, ...scroll, does(['escape'], 'escape', 'let it be', 3), quit],
  'form choice': [press('go on'), ...choose, erase, does(['escape'], 'escape', 'let it be', 3), quit],
  locked: [enter('sign on'), erase, does(['escape'], 'escape', 'clear', 61), out],
  pin: [enter('sign'), erase, does(['escape'], 'escape', 'let it be', 3), quit],
  over: [],
};

/** What the other letters do, mode by mode. */
export const typing: Readonly<Record<Mode, Typing>> = {
  'sign on': 'text',
  station: 'text',
  desk: 'nothing',
  draft: 'nothing',
  caution: 'text',
  changes: 'text',
  confirm: 'text',
  value: 'number',
  'value begun': 'text',
  words: 'text',
  'one key': 'nothing',
  choice: 'text',
  hold: 'text',
  finished: 'nothing',
  keys: 'nothing',
  'look back': 'nothing',
  picture: 'nothing',
  'form words': 'text',
  'form choice': 'text',
  pin: 'text',
  locked: 'text',
  over: 'nothing',
};
