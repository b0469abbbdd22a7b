import { Option } from 'commander';
import type { CommandLine } from './command-line.ts';

/** What a supervisor does with procedures. */
export function declareWriting(given: CommandLine): void {
  const { verb, does, io } = given;
  verb('desk', 'a supervisor’s screen: what is on hold, at work and written', 'walkfoot desk --json')
    .option('--hand <name>', 'sign on at once')
    .option('--plain', 'the list once, as text; exit 1 while a hold waits')
    .option('--json', 'the same for programs')
    .action(does(async (options) => (await import('../commands/desk.ts')).desk(options, io)));

  verb(
    'proofread [files...]',
    'say what is unclear or unsafe in procedures',
    'walkfoot proofread procedures/LIN-2207.md --json',
  )
    .option('--explain [rule]', 'say what a rule is for, by its name or number; without one list them all')
    .option('--watch', 'read again after each save, until Ctrl-C')
    .option('--json', 'for programs')
    .action(
      does(async (files, options) => (await import('../commands/proofread.ts')).proofreadCommand(files, options, io)),
    );

  verb('outline <file>', 'show how the program reads a procedure', 'walkfoot outline procedures/LIN-2207.md --json')
    .option('--json', 'for programs')
    .action(does(async (file, options) => (await import('../commands/outline.ts')).outlineCommand(file, options, io)));

  verb(
    'thread <procedure>',
    'needle and bobbin thread by the drawing, and where bobbins change',
    'walkfoot thread LIN-2207 --sets 2',
  )
    .option('--sets <n>', 'sets in the bundle (default: as the procedure says)')
    .option('--json', 'for programs')
    .action(does(async (procedure, options) => (await import('../commands/thread.ts')).thread(procedure, options, io)));

  verb('size <words...>', 'a thread, a needle or a stitch, numbered in every way it is numbered', [
    'walkfoot size Tex 70',
    'walkfoot size needle 110',
    'walkfoot size stitch 4 mm',
  ])
    .option('--json', 'for programs')
    .action(does(async (words, options) => (await import('../commands/size.ts')).size(words, options, io)));

  verb(
    'draw <file>',
    'make a drawing of a pattern (ASCII DXF), and say what of it is not in the drawing',
    'walkfoot draw strap.dxf --units mm --out media/strap.svg',
  )
    .addOption(
      new Option('--units <unit>', 'of the pattern’s numbers; asked at a terminal when the file has none').choices([
        'mm',
        'in',
      ]),
    )
    .option('--out <file>', 'the drawing (default: the pattern’s name with .svg, here)')
    .option('--json', 'for programs')
    .action(does(async (file, options) => (await import('../commands/draw.ts')).draw(file, options, io)));

  verb(
    'changes <procedure> [from] [to]',
    'what differs between two revisions, or the newest and the draft; which past readings would be outside',
    'walkfoot changes LIN-2207 B C',
  )
    .option('--json', 'for programs')
    .action(
      does(async (procedure, from, to, options) =>
        (await import('../commands/changes.ts')).changes(procedure, from, to, options, io),
      ),
    );

  verb(
    'release <procedure>',
    'freeze a draft and its pictures as the next revision',
    'walkfoot release LIN-2207 --hand Vera',
  )
    .requiredOption('--hand <name>', 'the supervisor who releases it')
    .addOption(openBundles())
    .option('--json', 'for programs')
    .action(
      does(async (procedure, options) =>
        (await import('../commands/release.ts')).releaseProcedure(procedure, options, io),
      ),
    );

  verb(
    'withdraw <procedure> <revision>',
    'take a revision out of use',
    'walkfoot withdraw LIN-2207 B --reason "the old sleeve lines" --hand Vera',
  )
    .requiredOption('--hand <name>', 'the supervisor who withdraws it')
    .requiredOption('--reason <words>', 'why')
    .addOption(openBundles())
    .option('--json', 'for programs')
    .action(
      does(async (procedure, revision, options) =>
        (await import('../commands/withdraw.ts')).withdraw(procedure, revision, options, io),
      ),
    );
}

const openBundles = (): Option =>
  new Option(
    '--open-bundles <fate>',
    'what becomes of bundles at work on it or an older one; asked at a terminal',
  ).choices(['finish', 'hold']);
