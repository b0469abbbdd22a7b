import { spawn, spawnSync } from 'node:child_process';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Io } from './io.ts';

/**
 * Opens files in the editor that the environment names (`VISUAL`, else `EDITOR`), which has the terminal until it ends and gives it back
 * as it was. No shell is asked, so that nothing in a file's name is a command. Refuses when there is none, or it cannot be started.
 */
export function editFiles(paths: readonly string[], io: Io): Promise<Result<void>> {
  const said = io.env.VISUAL || io.env.EDITOR || '';
  const [program, ...args] = wordsOf(said);
  if (program === undefined)
    return Promise.resolve(
      refuse(
        'editor-none',
        'No editor is named: set EDITOR, as in `EDITOR=nano walkfoot desk`, or save the file in one of your own.',
      ),
    );
  return new Promise((resolve) => {
    // What the keyboard sends to all programs of the terminal is meant for the editor.
    const ignore = (): void => {};
    process.on('SIGINT', ignore);
    process.on('SIGQUIT', ignore);
    const giveBack = keepTerminal();
    const done = (result: Result<void>): void => {
      giveBack();
      process.off('SIGINT', ignore);
      process.off('SIGQUIT', ignore);
      resolve(result);
    };
    const editor = spawn(program, [...args, ...paths], { stdio: 'inherit', cwd: io.cwd });
    editor.on('error', () =>
      done(refuse('editor-start', 'The editor {program} could not be started: set EDITOR to another.', { program })),
    );
    editor.on('close', (code, signal) =>
      done(
        code === 0
          ? ok(undefined)
          : refuse('editor-ended', 'The editor ended with {ended}: look whether all was saved.', {
              ended: signal ?? code,
            }),
      ),
    );
  });
}

/**
 * Keeps how the terminal is set until the answer is called: an editor that crashes may leave it so that rows no longer begin at the left.
 * Node sets raw mode and back, and knows no other settings; `stty -g` writes them all down, and reads them again (POSIX, stty).
 */
function keepTerminal(): () => void {
  const { stdout: settings, status } = spawnSync('stty', ['-g'], {
    stdio: ['inherit', 'pipe', 'ignore'],
    encoding: 'utf8',
  });
  return () => {
    if (status === 0) spawnSync('stty', [settings.trim()], { stdio: ['inherit', 'ignore', 'ignore'] });
  };
}

/** The words of a command line; quotes of either kind keep what has blanks together, also within a word. */
export const wordsOf = (line: string): readonly string[] =>
  (line.match(/(?:[^\s"']|"[^"]*"|'[^']*')+/g) ?? []).map((word) =>
    word.replace(/"([^"]*)"|'([^']*)'/g, (_, double?: string, single?: string) => double ?? single ?? ''),
  );
