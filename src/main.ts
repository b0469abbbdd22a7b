import { Command, CommanderError } from 'commander';
import { showHidden } from './base/text.ts';
import { declareAnswers } from './command-line/answers.ts';
import { commandLine, inRoom } from './command-line/command-line.ts';
import { declarePeople } from './command-line/people.ts';
import { declarePlaying } from './command-line/playing.ts';
import { declareWriting } from './command-line/writing.ts';
import { cannot, type Io } from './commands/io.ts';
import { StoreTrouble } from './ledger/ledger-store.ts';

/**
 * The command line: names each command and loads its code only when it is called. The only place that ends the process.
 */
const io: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  get cwd() {
    try {
      return process.cwd();
    } catch {
      throw new StoreTrouble('The folder you are in is gone: change to another one.');
    }
  },
  env: process.env,
  clock: () => {
    const now = new Date();
    return { ms: now.getTime(), offset: -now.getTimezoneOffset() };
  },
  offsetAt: (wall) => -new Date(wall).getTimezoneOffset(),
  // Looked up when first read from: most commands never do, and a terminal's input takes time to set up.
  get stdin() {
    return process.stdin;
  },
  stdout: process.stdout,
  exit: (ending) => process.exit(ending),
};

// Whoever read the output has gone (`| head`): what is left to do is done, and nobody is told.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    // EIO: the terminal itself has gone; whoever holds it hears of it in another way.
    if (error.code === 'EPIPE' || error.code === 'EIO') return;
    process.exitCode = cannot(
      { ...io, out: () => {} },
      `The output could not be written (${error.code}): make space where it goes.`,
    );
    process.exit();
  });

let code: number = 0;
const program = new Command('walkfoot')
  .description(
    'Walks a sewer through a procedure, point by point, and keeps the evidence.\nWithout a command it opens the station.',
  )
  .configureOutput({ writeErr: (text) => io.err(showHidden(text)) })
  .exitOverride()
  .enablePositionalOptions()
  .showHelpAfterError('(walkfoot --help tells more)')
  .configureHelp({ helpWidth: Math.min(100, process.stdout.columns ?? 80) })
  .addHelpText(
    'after',
    '\nExit status: 0 good, 1 the answer is bad news, 2 it could not run.\nExample: walkfoot demo practice-room && walkfoot --room practice-room',
  );

const given = commandLine(program, io, (ended) => {
  code = ended;
});

inRoom(program)
  .option('--plain', 'a dialogue of lines instead of a screen')
  .option('--hand <name>', 'sign on at once')
  .allowExcessArguments()
  .action(
    given.does(async (options) => {
      const [unknown] = program.args;
      if (unknown !== undefined) return noSuchCommand(unknown);
      return (await import('./commands/sew.ts')).openStation(options, io);
    }),
  );

for (const declare of [declarePlaying, declareWriting, declarePeople, declareAnswers]) declare(given);

try {
  await program.parseAsync();
} catch (trouble) {
  code = exitFor(trouble);
}
// Not process.exit: output into a pipe may still be on its way.
process.exitCode = code;

async function noSuchCommand(word: string): Promise<number> {
  const { nearest } = await import('./procedure/nearest.ts');
  const meant = nearest(
    word,
    program.commands.map((command) => command.name()),
  );
  return cannot(
    io,
    `There is no command ${word}${meant ? `; did you mean ${meant}?` : ':'} \`walkfoot --help\` lists them all.`,
  );
}

function exitFor(trouble: unknown): number {
  if (trouble instanceof CommanderError) return trouble.exitCode === 0 ? 0 : 2;
  if (trouble instanceof StoreTrouble) {
    return cannot(io, trouble.message);
  }
  // A bug: everything there is to say about it, and the exit status of an internal error.
  io.err(showHidden(`${trouble instanceof Error ? trouble.stack : String(trouble)}\n`));
  return 70;
}
