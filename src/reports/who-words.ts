import { duration } from '../base/duration.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { WhoRow } from './who.ts';

/** What an entry is that is no answer to a point, with what it says: `held: H-031: off its line`, `read: WARNING Needle.` */
export function kindWords({ kind, point, value }: WhoRow): string {
  const about = kind === 'clock-started' || kind === 'struck' ? point : null;
  return [words[kind] ?? kind, about, value].filter(Boolean).join(': ');
}

/** Kinds of entry that do not say by their name what they are. */
const words: Partial<Record<WhoRow['kind'], string>> = {
  'caution-read': 'read',
  'changes-read': 'read what changed',
  'clock-started': 'clock started',
  'sent-back': 'sent back',
  'handed-over': 'handed over',
  'bobbin-fitted': 'bobbin',
  'thread-used': 'thread',
  'kept-on': 'to be finished on its revision',
  'signed-on': 'signed on',
  'gauge-checked': 'gauge checked',
  skilled: 'skill',
  helped: 'stood by',
  'pin-set': 'PIN set',
  'pin-failed': 'wrong PIN',
  'pin-proven': 'right PIN after wrong ones',
  paused: 'left',
  resumed: 'taken up again',
};

/** What else is to be known of a row, beside its value, its limit and its verdict. */
export function remarks(row: WhoRow): readonly string[] {
  const { typed, value, unit, by, verdict, witness, struck, again, before, waited, lay, clock } = row;
  const isOther = typed !== null && unit !== null && typed !== '' && typed !== value;
  return [
    by === null ? '' : `${amountWords(by, unit ?? '')} ${verdict}`,
    isOther ? `typed ${typed}` : '',
    witness === null ? '' : `${row.meaning ?? 'witnessed'}: ${witness}`,
    row.kind !== 'checked' && row.meaning?.endsWith(' with PIN') ? 'with PIN' : '',
    struck === null ? '' : `struck: ${struck}`,
    again ? 'done again later' : '',
    before === null ? '' : `before: ${before}`,
    waited ? `waited ${duration(waited)}` : '',
    lay ? `lay ${duration(lay)}` : '',
    row.language === null ? '' : `read in ${row.language}`,
    row.doneAt === null
      ? ''
      : `done at ${row.doneAt.slice(0, 16).replace('T', ' ')} on paper, typed in by ${row.typedBy}`,
    clock === null ? '' : `the station's clock was ${clock}`,
  ].filter((each) => each !== '');
}
