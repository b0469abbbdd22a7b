import { Command, CommanderError, Option } from 'commander';
import { showHidden } from './base/text.ts';
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
/** Runs a command's work with its operands and options; `--room` counts before the command's name as well as behind it. */
const does =
  (work: (...said: readonly Said[]) => Promise<number>) =>
  async (...given: readonly unknown[]): Promise<void> => {
    const command = given.at(-1) as Command;
    code = await work(...(given.slice(0, -2) as Said[]), command.optsWithGlobals());
  };
// The command line's own parser has checked what each command takes.
// biome-ignore lint/suspicious/noExplicitAny: commander hands over whatever was declared.
type Said = any;

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

const inRoom = (command: Command): Command =>
  command.option('--room <folder>', 'the room’s folder (default: this one)');
const example = (command: Command, texts: string | readonly string[]): Command =>
  command.addHelpText('after', ['', ...[texts].flat().map((text) => `Example: ${text}`)].join('\n'));
const verb = (usage: string, summary: string, shown: string | readonly string[]): Command =>
  example(inRoom(program.command(usage).description(summary)).allowExcessArguments(false), shown);

inRoom(program)
  .option('--plain', 'a dialogue of lines instead of a screen')
  .option('--hand <name>', 'sign on at once')
  .allowExcessArguments()
  .action(
    does(async (options) => {
      const [unknown] = program.args;
      if (unknown !== undefined) return noSuchCommand(unknown);
      return (await import('./commands/sew.ts')).openStation(options, io);
    }),
  );

verb('sew <ticket>', 'play one bundle from where it stands', 'walkfoot sew B-1041 --hand Ines')
  .option('--hand <name>', 'sign on at once, by name, id or badge')
  .option('--plain', 'a dialogue of lines instead of a screen')
  .action(does(async (ticket, options) => (await import('./commands/sew.ts')).sew(ticket, options, io)));

verb('rehearse <file>', 'play a draft; nothing is recorded', 'walkfoot rehearse procedures/LIN-2207.md')
  .option('--plain', 'a dialogue of lines instead of a screen')
  .action(does(async (file, options) => (await import('./commands/rehearse.ts')).rehearse(file, options, io)));

verb(
  'proofread [files...]',
  'say what is unclear or unsafe in procedures',
  'walkfoot proofread procedures/LIN-2207.md --json',
)
  .option('--json', 'for programs')
  .action(
    does(async (files, options) => (await import('./commands/proofread.ts')).proofreadCommand(files, options, io)),
  );

verb('outline <file>', 'show how the program reads a procedure', 'walkfoot outline procedures/LIN-2207.md --json')
  .option('--json', 'for programs')
  .action(does(async (file, options) => (await import('./commands/outline.ts')).outlineCommand(file, options, io)));

verb(
  'release <procedure>',
  'freeze a draft and its pictures as the next revision',
  'walkfoot release LIN-2207 --hand Vera',
)
  .requiredOption('--hand <name>', 'the supervisor who releases it')
  .option('--json', 'for programs')
  .action(
    does(async (procedure, options) =>
      (await import('./commands/release.ts')).releaseProcedure(procedure, options, io),
    ),
  );

verb(
  'ticket <procedure>',
  'make a ticket for a new bundle',
  'walkfoot ticket LIN-2207 --sets 2 --roll R-318 --roll R-322',
)
  .option('--sets <n>', 'sets in the bundle (default: as the procedure says)')
  .option('--roll <name>', 'a roll it is cut from; once for each', (roll: string, rolls: string[] = []) => [
    ...rolls,
    roll,
  ])
  .option('--name <ticket>', 'the ticket’s name (default: the next number)')
  .option('--hand <name>', 'who makes it')
  .option('--json', 'for programs')
  .action(
    does(async (procedure, options) => (await import('./commands/ticket.ts')).makeTicket(procedure, options, io)),
  );

const hand = program.command('hand').description('the people of the room').exitOverride();
const handVerb = (usage: string, summary: string, shown: string): Command =>
  example(inRoom(hand.command(usage).description(summary)), shown);

handVerb('add <name>', 'add a person', 'walkfoot hand add Ines --role sewer --badge 4711 --hand Vera')
  .addOption(
    new Option('--role <role>', 'what they may do').choices(['sewer', 'supervisor', 'auditor']).default('sewer'),
  )
  .option('--id <id>', 'their id in the ledger (default: the next of their role)')
  .option('--badge <code>', 'what their badge scans as')
  .option('--hand <name>', 'who adds them')
  .action(does(async (name, options) => (await import('./commands/hand.ts')).addHand(name, options, io)));

handVerb(
  'pin <name>',
  'set or change a PIN; it is typed, or comes as a line of standard input',
  'walkfoot hand pin Maj',
)
  .option('--hand <name>', 'the supervisor who lets a forgotten PIN be chosen anew')
  .action(does(async (name, options) => (await import('./commands/hand-pin.ts')).setPin(name, options, io)));

handVerb(
  'skill <name> <skill> <level>',
  'enter how well a hand does an operation: 0 none, 1 in training, 2 with help, 3 alone, 4 can teach',
  'walkfoot hand skill Maj "top-stitch vinyl" 2 --hand Vera',
)
  .option('--hand <name>', 'who enters it')
  .action(
    does(async (name, skill, level, options) =>
      (await import('./commands/hand.ts')).setSkill(name, skill, level, options, io),
    ),
  );

handVerb('list', 'list everybody', 'walkfoot hand list --json')
  .option('--json', 'for programs')
  .action(does(async (options) => (await import('./commands/hand.ts')).listHands(options, io)));

handVerb(
  'retire <name>',
  'retire a person; what they recorded stays',
  'walkfoot hand retire Maj --reason "moved to cutting" --hand Vera',
)
  .option('--reason <words>', 'why')
  .option('--hand <name>', 'who retires them')
  .action(does(async (name, options) => (await import('./commands/hand.ts')).retireHand(name, options, io)));

verb('who [ticket]', 'who did which step of which bundle, when, with which readings', [
  'walkfoot who B-1041 --step 4',
  'walkfoot who B-1042 --repeated',
  'walkfoot who --hand Tomas --since 2026-11-01 --csv',
  'walkfoot who --roll R-318',
  'walkfoot who --procedure LIN-2207 --revision C',
  'walkfoot who --procedure LIN-2207 --revision C --skill "top-stitch vinyl"',
  'walkfoot who B-1041 --step 9 --text',
  'walkfoot who --holds --concessions',
])
  .option('--hand <name>', 'only what this hand did, or looked at as the second person')
  .option('--step <n>', 'only this step')
  .option('--since <time>', 'a day such as 2026-11-25, or an RFC 3339 time')
  .option('--until <time>', 'the same')
  .option('--repeated', 'answers given again or struck, and what they said before')
  .option('--roll <name>', 'which bundles used this roll')
  .option('--procedure <id>', 'which bundles were sewn on it; with --skill or --step, who passed that operation')
  .option('--revision <letter>', 'of that procedure, only this one')
  .option('--skill <words>', 'the operation that needs this skill')
  .option('--text', 'what the step said when the bundle was opened (with a ticket and --step)')
  .option('--holds', 'holds that are still open')
  .option('--concessions', 'what was let through, with its limit and last day')
  .option('--utc', 'times in UTC instead of the station’s own')
  .option('--json', 'for programs')
  .addOption(new Option('--csv', 'for spreadsheets (RFC 4180)').conflicts('json'))
  .action(does(async (ticket, options) => (await import('./commands/who.ts')).who(ticket, options, io)));

verb('verify [receipt]', 'recompute the ledger, or check a receipt', 'walkfoot verify --since kept.checkpoint')
  .option('--key <key>', 'the station’s key, or a file that holds it; a receipt needs it')
  .option('--since <file>', 'a checkpoint or receipt kept elsewhere, which history must have grown from')
  .option('--json', 'for programs')
  .action(does(async (file, options) => (await import('./commands/verify.ts')).verify(file, options, io)));

verb('receipt <ticket>', 'write a file that proves one bundle to somebody else', 'walkfoot receipt B-1042')
  .option('--out <file>', 'where to (default: the ticket’s name with .receipt)')
  .option('--since <file>', 'prove also that the ledger grew from this checkpoint or receipt')
  .action(does(async (ticket, options) => (await import('./commands/receipt.ts')).receipt(ticket, options, io)));

verb(
  'station',
  'say which station this is, and the key others check it with',
  'walkfoot station --checkpoint > kept.checkpoint',
)
  .option('--checkpoint', 'print a checkpoint signed now, to be kept elsewhere')
  .option('--new-key', 'sign with a new key from here on')
  .option('--hand <name>', 'the supervisor who makes the new key')
  .option('--json', 'for programs')
  .action(does(async (options) => (await import('./commands/station.ts')).station(options, io)));

example(
  program.command('demo [folder]').description('make a practice room with invented people, procedures and bundles'),
  'walkfoot demo practice-room --open',
)
  .option('--open', 'make it only when it is missing, then open its station')
  .action(does(async (folder, options) => (await import('./commands/demo.ts')).demo(folder, options, io)));

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
