import { spawn } from 'node:child_process';
import { resolve } from 'node:path';

export const program = resolve(import.meta.dirname, '../bin/walkfoot.js');

/** Runs the bundled program to its end; rejects when it fails. */
export const run = (args: readonly string[]): Promise<void> => runNode([program, ...args]);

/** Runs this very Node with the arguments, its output thrown away; rejects when it fails. */
export function runNode(args: readonly string[]): Promise<void> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
    child.on('error', fail);
    child.on('exit', (code) => (code === 0 ? done() : fail(new Error(`${args.join(' ')} ended with ${code}`))));
  });
}
