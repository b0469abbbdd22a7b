/** What a key comes to, once the keymap of the mode has had its say. */
export type Move =
  | { readonly move: 'type'; readonly text: string }
  | { readonly move: 'erase' }
  | { readonly move: 'up' | 'down' | 'page up' | 'page down' | 'escape' | 'enter' }
  /** A device typed this and pressed enter: a whole answer, or a ticket. */
  | { readonly move: 'scan'; readonly text: string }
  | { readonly move: 'order'; readonly order: Order };

/** Orders that have a key of their own. */
export type Order =
  | 'hold'
  | 'look back'
  | 'note'
  | 'hand over'
  | 'undo'
  | 'big'
  | 'leave'
  | 'keys'
  | 'go back'
  | 'settle'
  | 'strike'
  | 'sign off'
  | 'one key'
  | 'quit';

/** What the program listens for. Each mode has its own table of keys. */
export type Mode =
  | 'sign on'
  | 'station'
  | 'caution'
  | 'changes'
  | 'confirm'
  | 'value'
  | 'value begun'
  | 'words'
  | 'one key'
  | 'choice'
  | 'hold'
  | 'finished'
  | 'keys'
  | 'look back'
  | 'form words'
  | 'form choice'
  | 'over';
