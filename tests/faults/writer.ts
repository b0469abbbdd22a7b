import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

const SCRIPT = join(import.meta.dirname, 'ledger-writer.ts');

/** A writer in a process of its own, and what it has been told by the ledger so far. */
export interface Writer {
  readonly child: ChildProcess;
  /** Seq to leaf of every acknowledged entry. */
  readonly acknowledged: ReadonlyMap<number, string>;
  /** The one sentence it ended with, if it did. */
  readonly trouble: () => string | undefined;
  /** Resolves when the ledger is open, or the process has ended. */
  readonly ready: Promise<void>;
  /** Exit code, or the signal that ended it. */
  readonly ended: Promise<number | string>;
}

export interface WriterOptions {
  readonly file: string;
  readonly name?: string;
  readonly count?: number | 'forever';
  readonly restMs?: number;
  /** Shell commands that come first, such as a limit. */
  readonly shell?: string;
  /** Another user to write as; only root may ask for it. */
  readonly user?: number | undefined;
}

/** Starts a writer; it does not outlive the test. */
export function startWriter({ file, name = 'OP-01', count = 1, restMs = 0, shell = '', user }: WriterOptions): Writer {
  const args = [process.execPath, SCRIPT, file, name, String(count), String(restMs), String(user ?? '')];
  const child = spawn('bash', ['-c', `${shell}\nexec "$@"`, 'bash', ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));

  const acknowledged = new Map<number, string>();
  let trouble: string | undefined;
  let pending = '';
  const ended = new Promise<number | string>((resolve) => {
    child.on('close', (code, signal) => resolve(code ?? signal ?? 'nothing'));
  });
  const ready = new Promise<void>((resolve) => {
    void ended.then(() => resolve());
    child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
      const lines = (pending + chunk).split('\n');
      pending = lines.pop() ?? '';
      for (const line of lines) {
        const [first = '', ...rest] = line.split(' ');
        if (first === 'ready') resolve();
        else if (first === 'trouble') trouble = rest.join(' ');
        else acknowledged.set(Number(first), rest.join(' '));
      }
    });
  });
  return { child, acknowledged, trouble: () => trouble, ready, ended };
}
