import chalk from 'chalk';
import { type Io, say } from './io.ts';

/** Shows a ticket's code to whoever stands at the screen with a scanner; unasked only at a terminal that has room for it. */
export async function showQr(ticket: string, asked: true | undefined, io: Io): Promise<void> {
  if (!asked && !io.stdout.isTTY) return;
  const { terminalQr } = await import('../reports/terminal-qr.ts');
  const { lines, columns } = terminalQr(ticket);
  if (io.stdout.isTTY && columns > io.stdout.columns) {
    if (asked) say(io, `The QR code takes ${columns} columns: make the terminal wider, or print a label with --label.`);
    return;
  }
  // Black and white by name: in the terminal's own two colours it would be turned round on a light ground.
  const drawn = io.env.NO_COLOR ? lines : lines.map((line) => chalk.ansi256(231).bgAnsi256(16)(line));
  io.out(`\n${drawn.join('\n')}\n\n`);
}
