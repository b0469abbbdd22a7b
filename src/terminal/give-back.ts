import { constants } from 'node:os';
import { assertNever } from '../base/assert-never.ts';
import { showHidden } from '../base/text.ts';

/** Why the program ends without having been asked to by a key. */
type Ending =
  | { readonly why: 'signal'; readonly signal: EndingSignal }
  | { readonly why: 'gone' }
  | { readonly why: 'crash'; readonly error: unknown };

type EndingSignal = 'SIGTERM' | 'SIGHUP' | 'SIGINT' | 'SIGQUIT';

interface GiveBackOptions {
  /** The screen's side of it; `close` must be safe to call twice. */
  readonly terminal: {
    close(): void;
    retake(): void;
    onGone(fn: () => void): () => void;
  };
  /** Ends the process; the caller's, because one file alone may do that. */
  readonly exit: (code: number) => never;
  /** A last chance to record why, such as a pause. Not called after a crash: nobody knows what is still true then. */
  readonly beforeEnd?: (ending: Ending) => Promise<void> | void;
  /** Longest wait for `beforeEnd`, in milliseconds. */
  readonly patience?: number;
  readonly process?: NodeJS.Process;
}

const SIGNALS: readonly EndingSignal[] = ['SIGTERM', 'SIGHUP', 'SIGINT', 'SIGQUIT'];
const PATIENCE = 1500;
/** EX_SOFTWARE of sysexits.h: an internal error. */
const CRASHED = 70;

/**
 * Sees to it that the terminal comes back however the program ends. First the terminal is given back, then `beforeEnd` has its
 * say, then the process ends: 128 + the signal's number, as a shell reports it; 129 when the terminal went away; 70 after a
 * crash, with the stack on standard error, where it can be read. A second signal does not wait. The answer takes it all off again.
 */
export function giveBack(options: GiveBackOptions): () => void {
  const { terminal, exit, beforeEnd, patience = PATIENCE, process: self = process } = options;
  let ending: Ending | undefined;

  const end = async (why: Ending): Promise<void> => {
    const isSecond = ending !== undefined;
    ending ??= why;
    terminal.close();
    if (why.why === 'crash') self.stderr.write(`${showHidden(stackOf(why.error))}\n`);
    else if (!isSecond && beforeEnd) await within(patience, async () => beforeEnd(why));
    exit(codeOf(why));
  };
  const onSignal = (signal: NodeJS.Signals): void => void end({ why: 'signal', signal: signal as EndingSignal });
  const onCrash = (error: unknown): void => void end({ why: 'crash', error });
  const onContinue = (): void => terminal.retake();
  const onExit = (): void => terminal.close();

  for (const signal of SIGNALS) self.on(signal, onSignal);
  self.on('SIGCONT', onContinue);
  self.on('uncaughtException', onCrash);
  self.on('unhandledRejection', onCrash);
  self.on('exit', onExit);
  const stopGone = terminal.onGone(() => {
    if (!ending) void end({ why: 'gone' });
  });

  return () => {
    for (const signal of SIGNALS) self.off(signal, onSignal);
    self.off('SIGCONT', onContinue);
    self.off('uncaughtException', onCrash);
    self.off('unhandledRejection', onCrash);
    self.off('exit', onExit);
    stopGone();
  };
}

function codeOf(ending: Ending): number {
  switch (ending.why) {
    case 'signal':
      return 128 + constants.signals[ending.signal];
    case 'gone':
      return 128 + constants.signals.SIGHUP;
    case 'crash':
      return CRASHED;
    default:
      return assertNever(ending);
  }
}

const stackOf = (error: unknown): string => (error instanceof Error ? (error.stack ?? String(error)) : String(error));

/** Waits for the work, but not longer; a failure of the work does not stop the ending. */
async function within(ms: number, work: () => Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const bound = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, ms);
  });
  await Promise.race([work().catch(() => {}), bound]);
  clearTimeout(timer);
}
