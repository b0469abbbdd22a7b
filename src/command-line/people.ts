import { Option } from 'commander';
import { languages } from '../base/language.ts';
import { type CommandLine, declared } from './command-line.ts';

/** The people of the room. */
export function declarePeople(given: CommandLine): void {
  const { program, verb, does, io } = given;
  verb('hands', 'who does which operation how well, alone or with somebody beside, and who could be trained next', [
    'walkfoot hands',
    'walkfoot hands --skill "top-stitch vinyl"',
  ])
    .option('--skill <words>', 'only the operation that needs this skill')
    .option('--json', 'for programs')
    .addOption(new Option('--csv', 'for spreadsheets (RFC 4180)').conflicts('json'))
    .action(does(async (options) => (await import('../commands/hands.ts')).hands(options, io)));

  const hand = program.command('hand').description('the people of the room').exitOverride();
  const handVerb = (usage: string, summary: string, shown: string) => declared(hand, usage, summary, shown);

  handVerb('add <name>', 'add a person', 'walkfoot hand add Ines --role sewer --badge 4711 --hand Vera')
    .addOption(
      new Option('--role <role>', 'what they may do').choices(['sewer', 'supervisor', 'auditor']).default('sewer'),
    )
    .option('--id <id>', 'their id in the ledger (default: the next of their role)')
    .option('--badge <code>', 'what their badge scans as')
    .addOption(new Option('--language <tag>', 'what they read').choices(languages))
    .option('--hand <name>', 'who adds them')
    .action(does(async (name, options) => (await import('../commands/hand.ts')).addHand(name, options, io)));

  handVerb(
    'pin <name>',
    'set or change a PIN; it is typed, or comes as a line of standard input',
    'walkfoot hand pin Maj',
  )
    .option('--hand <name>', 'the supervisor who lets a forgotten PIN be chosen anew')
    .action(does(async (name, options) => (await import('../commands/hand-pin.ts')).setPin(name, options, io)));

  handVerb(
    'skill <name> <skill> <level>',
    'enter how well a hand does an operation: 0 none, 1 in training, 2 with help, 3 alone, 4 can teach',
    'walkfoot hand skill Maj "top-stitch vinyl" 2 --hand Vera',
  )
    .option('--hand <name>', 'who enters it')
    .action(
      does(async (name, skill, level, options) =>
        (await import('../commands/hand.ts')).setSkill(name, skill, level, options, io),
      ),
    );

  handVerb(
    'language <name> <tag>',
    `what a hand reads, from here on: ${languages.join(', ')}`,
    'walkfoot hand language Tomas es --hand Vera',
  )
    .option('--hand <name>', 'the supervisor who enters it; without it, the hand alone')
    .action(
      does(async (name, tag, options) => (await import('../commands/hand.ts')).setLanguage(name, tag, options, io)),
    );

  handVerb('list', 'list everybody', 'walkfoot hand list --json')
    .option('--json', 'for programs')
    .action(does(async (options) => (await import('../commands/hand.ts')).listHands(options, io)));

  handVerb(
    'retire <name>',
    'retire a person; what they recorded stays',
    'walkfoot hand retire Maj --reason "moved to cutting" --hand Vera',
  )
    .option('--reason <words>', 'why')
    .option('--hand <name>', 'who retires them')
    .action(does(async (name, options) => (await import('../commands/hand.ts')).retireHand(name, options, io)));
}
