import { Option } from 'commander';
import type { CommandLine } from './command-line.ts';

/** What an auditor asks, and what proves the answers. */
export function declareAnswers(given: CommandLine): void {
  const { verb, does, io } = given;
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
    .action(does(async (ticket, options) => (await import('../commands/who.ts')).who(ticket, options, io)));

  verb('verify [receipt]', 'recompute the ledger, or check a receipt', 'walkfoot verify --since kept.checkpoint')
    .option('--key <key>', 'the station’s key, or a file that holds it; a receipt needs it')
    .option('--since <file>', 'a checkpoint or receipt kept elsewhere, which history must have grown from')
    .option('--json', 'for programs')
    .action(does(async (file, options) => (await import('../commands/verify.ts')).verify(file, options, io)));

  verb('receipt <ticket>', 'write a file that proves one bundle to somebody else', 'walkfoot receipt B-1042')
    .option('--out <file>', 'where to (default: the ticket’s name with .receipt)')
    .option('--since <file>', 'prove also that the ledger grew from this checkpoint or receipt')
    .action(does(async (ticket, options) => (await import('../commands/receipt.ts')).receipt(ticket, options, io)));

  verb(
    'station',
    'say which station this is, and the key others check it with',
    'walkfoot station --checkpoint > kept.checkpoint',
  )
    .option('--checkpoint', 'print a checkpoint signed now, to be kept elsewhere')
    .option('--new-key', 'sign with a new key from here on')
    .option('--hand <name>', 'the supervisor who makes the new key')
    .option('--json', 'for programs')
    .action(does(async (options) => (await import('../commands/station.ts')).station(options, io)));
}
