import { expect, test } from 'vitest';
import type { HandId, ProcedureId, TicketId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';

import { entryKinds, THE_ROOM } from '../../src/bundle/entries.ts';
import { revisionAfter } from '../../src/bundle/revision-after.ts';
import { evolveRoom, roomKinds } from '../../src/bundle/room.ts';
import { signOn } from './deeds.ts';
import { given } from './story.ts';
import { step, text, tick } from './texts.ts';
import {
  audit,
  digest,
  emptyWorld,
  gone,
  ines,
  jon,
  LIN,
  olaf,
  release,
  stranger,
  TICKET,
  vera,
  withText,
} from './world.ts';

const plain = text([step('sew', [tick('sewn')])]);
const enrol = (who: string, name: string, hand: HandId = vera, badge?: string): Command => ({
  hand,
  do: 'enrol',
  who: who as HandId,
  name,
  role: 'sewer',
  ...(badge === undefined ? {} : { badge }),
});
const retire = (who: HandId, hand: HandId = vera): Command => ({ hand, do: 'retire', who, reason: 'moved away' });
const withdraw = (revision: string, reason = 'spacing', hand: HandId = vera): Command => ({
  hand,
  do: 'withdraw',
  procedure: LIN,
  revision,
  reason,
});
const ticket = (name: string, sets = 2, procedure: ProcedureId = LIN, hand: HandId = ines): Command => ({
  hand,
  do: 'make ticket',
  ticket: name as TicketId,
  procedure,
  sets,
  rolls: ['R-318', ' '],
});
const gauge = (name: string, reading: string, hand: HandId = ines): Command => ({
  hand,
  do: 'check gauge',
  gauge: name,
  reading,
  fit: 'fit',
});

test('the room adds its first hand, supervisors the others', () => {
  given(emptyWorld)
    .when(enrol('V-01', 'Vera', THE_ROOM))
    .leaves(['enrolled', { hand: 'V-01', name: 'Vera' }]);
  given(emptyWorld)
    .when(enrol('V-01', 'Vera', 'V-01' as HandId))
    .refused('hand-unknown');
  given(plain)
    .when(enrol('OP-05', 'Mia', vera, 'BADGE-5'))
    .leaves(['enrolled', { badge: 'BADGE-5' }]);
  given(plain)
    .when(enrol('OP-05', 'Mia', ines))
    .refused('role');
  given(plain)
    .when(enrol('OP-05', 'Mia', vera, ''))
    .leaves(['enrolled', { hand: 'OP-05' }]);
});

test('a hand’s id, name and badge are nobody else’s, not even a retired one’s', () => {
  for (const [who, name, badge] of [
    ['op-02', 'Mia'],
    ['OP-05', 'INES'],
    ['BADGE-2', 'Mia'],
    ['OP-05', 'Mia', 'OP-03'],
    ['OP-09', 'Gerd'],
    ['room', 'Mia'],
    ['OP-05', 'Room'],
  ] as const)
    given(plain)
      .when(enrol(who, name, vera, badge))
      .refused('hand-taken');
  for (const id of [' ', 'OP 5', '../x', '--help']) given(plain).when(enrol(id, 'Mia')).refused('hand-id');
  for (const name of ['Mi\u200ba', 'Mia\x1b[2J', '\u202eaiM'])
    given(plain).when(enrol('OP-05', name)).refused('hand-words');
  given(plain).when(enrol('OP-05', 'Ines ')).refused('hand-taken');
  given(plain).when(enrol('OP-05', '')).refused('hand-words');
});

test('the room takes its first key by itself, every other one from a supervisor', () => {
  const take = (key: string, hand: HandId): Command => ({ hand, do: 'take key', key });
  const keyed = given(plain)
    .when(take('one', THE_ROOM))
    .leaves(['keyed', { key: 'one' }]);
  expect(keyed.room.keys).toEqual(['one']);
  given(keyed).when(take('one', vera)).refused('key-same');
  given(keyed).when(take('two', THE_ROOM)).refused('hand-unknown');
  given(keyed).when(take('two', ines)).refused('role');
  const after = given(keyed)
    .when(take('two', vera))
    .leaves(['keyed', { key: 'two' }]);
  expect(after.room.keys).toEqual(['one', 'two']);
});

test('a hand is retired once, by a supervisor, and stays in the book', () => {
  const retired = given(plain)
    .when(retire(ines))
    .leaves(['retired', { hand: ines, reason: 'moved away' }]);
  expect(retired.room.hands.get(ines)).toMatchObject({ name: 'Ines', retired: true });
  given(plain).when(retire(gone)).refused('hand-retired');
  given(plain).when(retire(stranger)).refused('hand-unknown');
  given(plain).when(retire(ines, jon)).refused('role');
  given(plain).when(retire(audit, THE_ROOM)).refused('keeper');
  given(plain)
    .when(enrol('V-09', 'Mallory', THE_ROOM))
    .refused('keeper');
  given(plain, retire(olaf), retire(vera))
    .when(enrol('V-09', 'Nora', THE_ROOM))
    .leaves(['enrolled']);
});

test('an auditor signs on and does nothing else', () => {
  given(plain)
    .when(signOn(audit))
    .leaves(['signed-on', { role: 'auditor' }]);
  const rest = [
    enrol('OP-05', 'Mia'),
    retire(ines),
    release('b'),
    withdraw('A'),
    ticket('B-2'),
    gauge('tape 1', '100 mm'),
  ];
  for (const command of rest)
    given(plain)
      .when({ ...command, hand: audit })
      .refused('role');
  given(plain).when(signOn(gone)).refused('hand-retired');
  given(plain).when(signOn(stranger)).refused('hand-unknown');
});

test('a supervisor releases a text as the next revision, the same text only once', () => {
  given(plain)
    .when(release('b'))
    .leaves(['released', { revision: 'B', digest: digest('b') }]);
  given(plain).when(release('a')).refused('release-same');
  given(plain).when(release('b', ines)).refused('role');
  given(plain)
    .when({ ...release('b'), title: ' ' })
    .refused('title-missing');
  given(plain)
    .when({ ...release('a'), pictures: [{ address: 'lining.svg', digest: digest('c') }] })
    .leaves(['released', { revision: 'B' }]);
  given(plain, release('b'), release('a'))
    .when(release('b'))
    .leaves(['released', { revision: 'D' }]);
});

test('a text is the same only with the same pictures', () => {
  const pictured = (...names: readonly (readonly [string, string])[]): Command => ({
    ...release('b'),
    pictures: names.map(([address, name]) => ({ address, digest: digest(name) })),
  });
  const released = given(plain, pictured(['a.svg', '1'], ['b.svg', '2']));
  released.when(pictured(['a.svg', '1'], ['b.svg', '2'])).refused('release-same');
  released.when(pictured(['a.svg', '1'], ['b.svg', '3'])).leaves(['released']);
  released.when(pictured(['a.svg', '1'], ['c.svg', '2'])).leaves(['released']);
  released.when(pictured(['a.svg', '1'])).leaves(['released']);
  given(plain, pictured(['a.svg', '1']))
    .when(pictured(['a.svg', '1'], ['b.svg', '2']))
    .leaves(['released']);
});

test('letters of withdrawn revisions are not used again', () => {
  given(plain, release('b'), withdraw('B'))
    .when(release('c'))
    .leaves(['released', { revision: 'C' }]);
  given(plain)
    .when(withdraw('A'))
    .leaves(['withdrawn', { revision: 'A', reason: 'spacing' }]);
  given(plain).when(withdraw('B')).refused('no-such-revision');
  given(plain, withdraw('A')).when(withdraw('A')).refused('no-such-revision');
  given(plain).when(withdraw('A', ' ')).refused('reason-missing');
  given(plain)
    .when(withdraw('A', 'spacing', ines))
    .refused('role');
});

test.each([
  [undefined, 'A'],
  ['A', 'B'],
  ['Y', 'Z'],
  ['Z', 'AA'],
  ['AA', 'AB'],
  ['AZ', 'BA'],
  ['ZZ', 'AAA'],
  ['AZZ', 'BAA'],
])('after revision %s comes %s', (last, next) => expect(revisionAfter(last)).toBe(next));

test('a ticket has one bundle of 1 to 999 sets of something released', () => {
  given(plain)
    .when(ticket('B-2'))
    .leaves(['ticketed', { ticket: 'B-2', sets: 2, rolls: ['R-318'] }]);
  given(plain)
    .when(ticket('B-2', 1, LIN, THE_ROOM))
    .leaves(['ticketed']);
  given(plain).when(ticket(TICKET)).refused('ticket-taken');
  for (const roll of ['R\x1b1', 'R'.repeat(81)])
    given(plain)
      .when({ hand: vera, do: 'make ticket', ticket: 'B-2' as TicketId, procedure: LIN, sets: 1, rolls: [roll] })
      .refused('roll-name');
  for (const name of [' ', '../x', '--help', 'B\x1b1']) given(plain).when(ticket(name)).refused('ticket-name');
  given(plain)
    .when(ticket('B-2', 2, 'CUS-0412' as ProcedureId))
    .refused('no-release');
  given(plain, withdraw('A')).when(ticket('B-2')).refused('no-release');
  for (const sets of [1, 999]) given(plain).when(ticket('B-2', sets)).leaves(['ticketed', { sets }]);
  for (const sets of [0, -1, 1.5, 1000, Number.NaN]) given(plain).when(ticket('B-2', sets)).refused('sets');
});

test('a gauge check says which gauge and what it read', () => {
  given(plain)
    .when(gauge('tape 1', '100 mm'))
    .leaves(['gauge-checked', { gauge: 'tape 1', reading: '100 mm', fit: 'fit' }]);
  given(plain).when(gauge('', '100 mm')).refused('gauge-words');
  given(plain).when(gauge('tape 1', ' ')).refused('gauge-words');
});

test('a text the room does not have is not played', () => {
  const { world } = given(plain);
  given({ ...world, texts: new Map() })
    .when({ hand: ines, do: 'open' })
    .refused('no-release');
  expect(withText(world, 'b', plain).texts.size).toBe(2);
});

test('the room listens to its own kinds of entry and no others', () => {
  const { world } = given(plain, { hand: ines, do: 'open' }, { hand: ines, do: 'note', text: 'x' });
  for (const entry of world.entries)
    if (!roomKinds.some((kind) => kind === entry.kind)) expect(evolveRoom(world.room, entry)).toBe(world.room);
  expect(entryKinds).toEqual(expect.arrayContaining([...roomKinds]));
});
