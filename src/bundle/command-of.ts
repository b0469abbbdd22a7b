import { assertNever } from '../base/assert-never.ts';
import type { TicketId } from '../base/brand.ts';
import type { Command, SettleHow } from './command.ts';
import type { RecordedEntry, Settling } from './entries.ts';

/** The command that this entry answers. Where one command leaves several entries, each of them alone. */
export function commandOf(entry: Exclude<RecordedEntry, { readonly kind: 'pin-proven' }>): Command {
  const command = saidBy(entry);
  return 'paper' in entry.body && entry.body.paper ? { ...command, paper: entry.body.paper } : command;
}

function saidBy(entry: Exclude<RecordedEntry, { readonly kind: 'pin-proven' }>): Command {
  const { hand } = entry;
  switch (entry.kind) {
    case 'enrolled': {
      const { hand: who, name, role, badge, language } = entry.body;
      const more = { ...(badge === undefined ? {} : { badge }), ...(language === undefined ? {} : { language }) };
      return { do: 'enrol', hand, who, name, role, ...more };
    }
    case 'reads':
      return { do: 'set language', hand, who: entry.body.hand, language: entry.body.language };
    case 'keyed':
      return { do: 'take key', hand, key: entry.body.key };
    case 'retired':
      return {
        do: 'retire',
        hand,
        who: entry.body.hand,
        ...(entry.body.reason === undefined ? {} : { reason: entry.body.reason }),
      };
    case 'released': {
      const { revision: _, signed: __, alone, author, sheets, ...rest } = entry.body;
      const by = { ...(author === undefined ? {} : { author }), ...(sheets === undefined ? {} : { sheets }) };
      return { do: 'release', hand, supervisors: alone ? 'one' : 'several', ...by, ...rest };
    }
    case 'withdrawn': {
      const { procedure, revision, reason } = entry.body;
      return { do: 'withdraw', hand, procedure, revision, reason };
    }
    case 'ticketed':
      return { do: 'make ticket', hand, ...entry.body };
    case 'signed-on':
      return { do: 'sign on', hand, ...(entry.body.after && { after: 'own lock' }) };
    case 'pin-set': {
      const { hand: who, salt, hash, n, r, p } = entry.body;
      return { do: 'set pin', hand, who, salt, hash, n, r, p };
    }
    case 'pin-failed':
      return { do: 'fail pin', hand, who: entry.body.hand, for: entry.body.for };
    case 'gauge-checked':
      return { do: 'check gauge', hand, ...entry.body };
    case 'opened':
      return { do: 'open', hand };
    case 'resumed':
      return { do: 'resume', hand };
    case 'paused':
      return { do: 'pause', hand, ...(entry.body.reason === undefined ? {} : { reason: entry.body.reason }) };
    case 'handed-over':
      return { do: 'hand over', hand, to: entry.body.to };
    case 'changes-read':
      return { do: 'read changes', hand, change: entry.body.change ?? 1, of: entry.body.of ?? 1 };
    case 'caution-read': {
      const { set, step, caution, sheet } = entry.body;
      return { do: 'read caution', hand, set, step, caution, ...(sheet ? { sheet } : {}) };
    }
    case 'helped': {
      const { set, step, by } = entry.body;
      return { do: 'help', hand, set, step, by };
    }
    case 'skilled': {
      const { hand: who, skill, level } = entry.body;
      return { do: 'set skill', hand, who, skill, level };
    }
    case 'clock-started': {
      const { set, step, point } = entry.body;
      return { do: 'start clock', hand, set, step, point };
    }
    case 'checked': {
      const { set, step, point, place, typed, witness, folded, sheet } = entry.body;
      const seen = { ...(witness ? { witness } : {}), ...(folded ? { folded } : {}), ...(sheet ? { sheet } : {}) };
      return { do: 'check', hand, set, step, point, place, typed, ...seen };
    }
    case 'bobbin-fitted': {
      const { wound, takes } = entry.body;
      return { do: 'fit bobbin', hand, wound, ...(takes === undefined ? {} : { takes }) };
    }
    case 'thread-used': {
      const { set, step, took } = entry.body;
      return { do: 'use thread', hand, set, step, took };
    }
    case 'struck':
      return { do: 'strike', hand, entry: entry.body.entry, reason: entry.body.reason };
    case 'sent-back':
      return { do: 'go back', hand, reason: entry.body.reason };
    case 'held': {
      const { hold: name, point, reason } = entry.body;
      return { do: 'hold', hand, about: point === null ? 'bundle' : 'point', reason, name };
    }
    case 'settled': {
      const { hold, how, set, reason } = entry.body;
      return { do: 'settle', hand, hold, how: howOf(how, set), reason };
    }
    case 'kept-on':
      return { do: 'keep on', hand };
    case 'printed':
      return { do: 'print', hand, what: entry.body.what };
    case 'noted':
      return { do: 'note', hand, text: entry.body.text };
    case 'finished':
      return { do: 'finish', hand, good: entry.body.good };
    default:
      return assertNever(entry);
  }
}

/** The bundle an entry is about; null for what concerns the room. */
export const ticketOf = ({ body }: RecordedEntry): TicketId | null => ('ticket' in body ? body.ticket : null);

function howOf(how: Settling, set: number | null): SettleHow {
  switch (how.as) {
    case 'rework':
      return { as: 'rework', step: how.step, set };
    case 'recut': {
      const { piece, newPiece, roll, step, kit } = how;
      const asked = kit === undefined ? ({ kit: 'not asked' } as const) : {};
      return { as: 'recut', step, set, piece, newPiece, ...(roll === undefined ? {} : { roll }), ...asked };
    }
    case 'concession':
      return { ...how };
    case 'scrap':
      return { ...how };
    default:
      return assertNever(how);
  }
}
