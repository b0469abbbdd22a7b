/** What a key comes to, once the keymap of the mode has had its say. */
export type Move =
  | { readonly move: 'type'; readonly text: string }
  | { readonly move: 'erase' }
  | { readonly move: 'escape' | 'enter' }
  /** `within`: how far the screen can be scrolled, where that is known. */
  | { readonly move: 'up' | 'down' | 'page up' | 'page down'; readonly within?: ScrollRange }
  /** A device typed this and pressed enter: a whole answer, or a ticket. */
  | { readonly move: 'scan'; readonly text: string }
  | { readonly move: 'order'; readonly order: Order };

/** Rows away from the next action, up (negative) and down. */
export interface ScrollRange {
  readonly least: number;
  readonly most: number;
}

/** Orders that have a key of their own. */
export type Order =
  | 'hold'
  | 'look back'
  | 'picture'
  | 'note'
  | 'hand over'
  | 'bobbin'
  | 'undo'
  | 'big'
  | 'fold'
  | 'leave'
  | 'keys'
  | 'go back'
  | 'settle'
  | 'strike'
  | 'edit'
  | 'rehearse'
  | 'release'
  | 'keep on'
  | 'findings'
  | 'reading'
  | 'compare'
  | 'sign off'
  | 'one key'
  | 'quit';

/** What the program listens for. Each mode has its own table of keys. */
export type Mode =
  | 'sign on'
  | 'station'
  | 'desk'
  | 'draft'
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
  | 'picture'
  | 'form words'
  | 'form choice'
  | 'pin'
  | 'locked'
  | 'over';
