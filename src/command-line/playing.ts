import { Option } from 'commander';
import { languages } from '../base/language.ts';
import { type CommandLine, example } from './command-line.ts';

/** Bundles and practice: what is done at the machine. */
export function declarePlaying(given: CommandLine): void {
  const { verb, does, program, io } = given;
  verb('sew <ticket>', 'play one bundle from where it stands', 'walkfoot sew B-1041 --hand Ines')
    .option('--hand <name>', 'sign on at once, by name, id or badge')
    .option('--plain', 'a dialogue of lines instead of a screen')
    .action(does(async (ticket, options) => (await import('../commands/sew.ts')).sew(ticket, options, io)));

  verb('rehearse <file>', 'play a draft; nothing is recorded', 'walkfoot rehearse procedures/LIN-2207.md')
    .option('--plain', 'a dialogue of lines instead of a screen')
    .option('--watch', 'go on in each text that is saved, at the step where it stood')
    .action(does(async (file, options) => (await import('../commands/rehearse.ts')).rehearse(file, options, io)));

  verb(
    'key-in <ticket>',
    'type in what was done on paper; each entry says when it was done, when it was typed, and by whom',
    'walkfoot key-in B-1048 --for Piet --by Vera --at "2026-11-24 10:42"',
  )
    .requiredOption('--for <name>', 'whose work it is')
    .requiredOption('--by <name>', 'who types it in, with their PIN')
    .requiredOption('--at <time>', 'when it was begun, as on the paper; on the way @11:05 says a later time')
    .action(does(async (ticket, options) => (await import('../commands/key-in.ts')).keyIn(ticket, options, io)));

  verb('ticket [procedure]', 'make a ticket for a new bundle', [
    'walkfoot ticket LIN-2207 --sets 2 --roll R-318 --roll R-322',
    'walkfoot ticket LIN-2207 --label',
    'walkfoot ticket --again B-1047 --hand Vera',
  ])
    .option('--sets <n>', 'sets in the bundle (default: as the procedure says)')
    .option('--roll <name>', 'a roll it is cut from; once for each', (roll: string, rolls: string[] = []) => [
      ...rolls,
      roll,
    ])
    .option('--name <ticket>', 'the ticket’s name (default: the next number)')
    .option('--label [file]', 'write a label for a browser to print (default: the ticket’s name with .label.html)')
    .option('--qr', 'show its QR code, also where the output is no terminal')
    .addOption(
      new Option(
        '--again <ticket>',
        'print the label of this ticket once more, marked as a copy; a supervisor signs',
      ).conflicts(['sets', 'roll', 'name']),
    )
    .option('--hand <name>', 'who makes it, or prints it again')
    .option('--json', 'for programs')
    .action(does(async (procedure, options) => (await import('../commands/ticket.ts')).ticket(procedure, options, io)));

  verb('sheet <procedure|ticket>', 'write a paper form for a browser to print', [
    'walkfoot sheet LIN-2207 --paper Letter',
    'walkfoot sheet B-1041 --out monday.html',
    'walkfoot sheet LIN-2207 --language es --out LIN-2207.es.html',
    'walkfoot sheet procedures/HOD-0931.md --out draft.html',
  ])
    .option('--out <file>', 'where to (default: the name with .html)')
    .addOption(new Option('--paper <size>', 'what it is printed on').choices(['A4', 'Letter']).default('A4'))
    .addOption(new Option('--language <tag>', 'what it is read in (default: what the room speaks)').choices(languages))
    .option('--hand <name>', 'who prints it: a supervisor, when the ticket is on paper already')
    .action(does(async (named, options) => (await import('../commands/sheet.ts')).sheet(named, options, io)));

  example(
    program.command('demo [folder]').description('make a practice room with invented people, procedures and bundles'),
    'walkfoot demo practice-room --open',
  )
    .option('--open', 'make it only when it is missing, then open its station')
    .action(does(async (folder, options) => (await import('../commands/demo.ts')).demo(folder, options, io)));
}
