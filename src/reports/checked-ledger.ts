import type { LedgerReport } from '../app/check-ledger.ts';
import { many } from '../base/many.ts';

/** What came of recomputing a ledger, in sentences, one a line. */
export function checkedLedger({
  station,
  fault,
  entries,
  checkpoints,
  signed,
  clockSetBack,
  keys,
}: LedgerReport): readonly string[] {
  if (fault) {
    const where =
      fault.entry === null ? `The ledger of ${station}` : `Entry ${fault.entry} of the ledger of ${station}`;
    return [
      `${where} is not as it was written: ${fault.what}.`,
      `${many(entries, 'entry is', 'entries are')} good before it. Stop work on this station, keep the room's folder as it is, and compare it with the last good copy.`,
    ];
  }
  const behind = entries - signed;
  return [
    `The ledger of ${station} is intact: ${many(entries, 'entry', 'entries')}, ${many(checkpoints, 'checkpoint')}.`,
    behind === 0
      ? 'The last checkpoint covers all of them.'
      : `${many(behind, 'entry stands', 'entries stand')} behind the last checkpoint, not signed yet.`,
    ...(clockSetBack > 0
      ? [`The station's clock was set back ${clockSetBack === 1 ? 'once' : `${clockSetBack} times`}.`]
      : []),
    ...keys.map((key) => `Signed with ${key}`),
  ];
}
