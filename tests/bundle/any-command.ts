import fc from 'fast-check';
import type { HandId, ProcedureId, TicketId } from '../../src/base/brand.ts';
import type { SetNumber } from '../../src/bundle/bundle.ts';
import type { Command, SettleHow } from '../../src/bundle/command.ts';
import { papers, THE_ROOM } from '../../src/bundle/entries.ts';
import { audit, digest, gone, ines, jon, LIN, olaf, pointId, stepId, stranger, TICKET, vera } from './world.ts';

const hand = fc.constantFrom<HandId>(
  ines,
  ines,
  ines,
  jon,
  vera,
  vera,
  olaf,
  audit,
  gone,
  stranger,
  THE_ROOM,
  '' as HandId,
);
const set = fc.constantFrom<SetNumber>(null, 1, 2, 1, 2, 3, 0, -1, 1.5, Number.NaN);
const step = fc.constantFrom('kit', 'mark', 'sew', 'tie', 'nowhere', '').map(stepId);
const point = fc
  .constantFrom('pieces', 'roll', 'a', 'b', 'gap', 'flash', 'shade', 'seen', 'tied', 'x', '')
  .map(pointId);
const words = fc.oneof(
  fc.constantFrom('', ' ', 'x', '312', '3,5', '1,500', '15 1/2 in', '-4', '1e9', 'match', '99999999999999999999', '½'),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
  fc.string({ unit: 'binary', maxLength: 12 }),
);
const place = fc.constantFrom(1, 1, 2, 0, -1, 9, 0.5);
const maybe = <K extends string, T>(key: K, value: fc.Arbitrary<T>): fc.Arbitrary<{ [key in K]?: T }> =>
  fc.oneof(
    fc.constant({}),
    value.map((each) => ({ [key]: each }) as { [key in K]?: T }),
  );
const count = fc.constantFrom(0, 1, 2, 3, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY);
const sealed = {
  salt: fc.constant('ab'.repeat(16)),
  hash: fc.constant('cd'.repeat(32)),
  n: fc.constant(2),
  r: fc.constant(1),
  p: fc.constant(1),
};
const ticket = fc.constantFrom(TICKET, 'B-2' as TicketId, '' as TicketId);
const procedure = fc.constantFrom(LIN, LIN, 'CUS-0412' as ProcedureId);
const holdName = fc.constantFrom('H-001', 'H-002', 'H-003', 'H-004', 'H-999999999', '', ' ');
const day = fc.constantFrom('2030-01-01', '2026-11-25', '2020-01-01', '2026-02-31', '', 'soon');

const how: fc.Arbitrary<SettleHow> = fc.oneof(
  fc.record({ as: fc.constant('rework' as const), step }),
  fc.record({ as: fc.constant('rework' as const), step, set }),
  fc.record({ as: fc.constant('recut' as const), step, piece: words, newPiece: words, roll: words }),
  fc.record({ as: fc.constant('concession' as const), limit: words, expires: day }),
  fc.record({ as: fc.constant('concession' as const), limit: words, expires: day, name: words }),
  fc.record({ as: fc.constant('scrap' as const), set: fc.constantFrom(1, 2, 3, 0, 1.5, Number.NaN) }),
);

/** Before the story, within it, after it, and no time. */
const paperTime = fc.constantFrom('2020-01-01T08:00:00Z', '2026-11-25T08:10:00Z', '2030-01-01T08:00:00Z', 'soon');

type Do<K extends Command['do']> = Extract<Command, { readonly do: K }>;
const as = <K extends Command['do']>(name: K, rest: fc.Arbitrary<Omit<Do<K>, 'do' | 'hand'>>): fc.Arbitrary<Command> =>
  fc
    .tuple(hand, rest, fc.integer({ min: 0, max: 9 }), fc.record({ by: hand, doneAt: paperTime }))
    .map(
      ([who, body, one, paper]) =>
        ({ hand: who, do: name, ...body, ...(one === 0 ? { paper } : {}) }) as unknown as Command,
    );
const bare = fc.constant({});

/** Any command by anybody about anything, most of them nonsense. */
export const anyCommand: fc.Arbitrary<Command> = fc.oneof(
  as(
    'enrol',
    fc
      .tuple(
        fc.record({ who: hand, name: words, role: fc.constantFrom('sewer', 'supervisor', 'auditor') }),
        maybe('badge', words),
      )
      .map(([who, badge]) => ({ ...who, ...badge })),
  ),
  as('retire', fc.record({ who: hand })),
  as(
    'release',
    fc.constantFrom('a', 'b', 'c').chain((name) =>
      fc.record({
        procedure,
        title: words,
        author: hand,
        supervisors: fc.constantFrom('several', 'one'),
        digest: fc.constant(digest(name)),
        understood: fc.constant(digest(name)),
        pictures: fc.constant([]),
      }),
    ),
  ),
  as('withdraw', fc.record({ procedure, revision: fc.constantFrom('A', 'B', 'C', ''), reason: words })),
  as('make ticket', fc.record({ ticket, procedure, sets: count, rolls: fc.array(words, { maxLength: 2 }) })),
  as('sign on', maybe('after', fc.constantFrom('own lock', 'lock of another'))),
  as('set pin', fc.record({ who: hand, ...sealed })),
  as('fail pin', fc.record({ who: hand, for: fc.constantFrom('settled', 'witnessed') })),
  as('set skill', fc.record({ who: hand, skill: fc.oneof(fc.constant('sewing'), words), level: count })),
  as('help', fc.record({ set, step, by: hand })),
  as('check gauge', fc.record({ gauge: words, reading: words, fit: fc.constantFrom('fit', 'unfit') })),
  as('open', bare),
  as('resume', bare),
  as('keep on', bare),
  as('pause', maybe('reason', words)),
  as('hand over', fc.record({ to: hand })),
  as('read changes', fc.record({ change: fc.integer({ min: 0, max: 3 }), of: fc.integer({ min: 0, max: 3 }) })),
  as('read caution', fc.record({ set, step, caution: place })),
  as('start clock', fc.record({ set, step, point })),
  as(
    'check',
    fc
      .tuple(
        fc.record({ set, step, point, place, typed: words }),
        maybe('witness', hand),
        maybe('folded', fc.constant(true)),
        maybe('took', fc.constantFrom('4485', '0', 'x')),
      )
      .map(([what, witness, folded, took]) => ({ ...what, ...witness, ...folded, ...took })),
  ),
  as('fit bobbin', fc.record({ wound: fc.constantFrom('30000', '12500.5', '0', '-1', '', 'x', '99999999') })),
  as('use thread', fc.record({ set, step, took: fc.constantFrom('4485', '0', '') })),
  as('strike', fc.record({ entry: fc.integer({ min: 8, max: 60 }), reason: words })),
  as('go back', fc.record({ reason: words })),
  as(
    'hold',
    fc
      .tuple(fc.record({ about: fc.constantFrom('point', 'bundle'), reason: words }), maybe('name', holdName))
      .map(([what, name]) => ({
        ...what,
        ...name,
      })),
  ),
  as('settle', fc.record({ hold: holdName, how, reason: words })),
  as('note', fc.record({ text: words })),
  as('print', fc.record({ what: fc.constantFrom(...papers) })),
  as('finish', fc.record({ good: count })),
);

/** How a settlement is asked for, whole. */
export const anySettling = how;
