/**
 * What a terminal is asked, to hear what it can show: a picture of one pixel that is only tried (Kitty graphics protocol, `a=q`), the
 * size of a cell (`CSI 16 t`), the number of sixel colours (XTSMGRAPHICS 1), the field for sixels as it is and the largest it can be
 * (XTSMGRAPHICS 2, actions 1 and 4), the colour of the ground (OSC 11). Last comes the question that every terminal answers, and in
 * turn: DA1. A multiplexer answers it for itself, and so says truly whether a picture would come through. `null` where the questions
 * would be seen.
 */
export function questionsFor({ TERM = '', TMUX = '' }: Environment): string | null {
  if (PRINTS_QUESTIONS.test(TERM)) return null;
  return TMUX !== '' || MULTIPLEXER.test(TERM) ? OTHERS : KITTY + OTHERS;
}

interface Environment {
  readonly TERM?: string;
  readonly TMUX?: string;
}

/** They know none of it. */
const PRINTS_QUESTIONS = /^(?:linux|cons25|dumb|vt\d\d$)/;

/** They take what begins as the Kitty protocol does for the title of the window, and show it. */
const MULTIPLEXER = /^(?:tmux|screen)/;

const KITTY = '\x1b_Gi=1,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\';
const OTHERS = '\x1b[16t\x1b[?1;1;0S\x1b[?2;1;0S\x1b[?2;4;0S\x1b]11;?\x1b\\\x1b[c';
