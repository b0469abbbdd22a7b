import { describe, expect, test } from 'vitest';
import { decide } from '../../src/bundle/decide.ts';
import { type RecordedEntry, readEntry, THE_ROOM } from '../../src/bundle/entries.ts';
import { replay } from '../../src/bundle/replay.ts';
import { closed } from './close.ts';
import { concession, hold, open, rework, settle, strike } from './deeds.ts';
import { answered, upTo } from './story.ts';
import { computed, count, gap, reading, step, text, tick } from './texts.ts';
import { done, ines, later, situationOf, TICKET, vera, type World, worldOf } from './world.ts';

const procedure = text([
  step('kit', [count('pieces', '22')], { scope: 'bundle', cautions: ['NOTICE'] }),
  step('mark', [reading('a', '312 ±1.5'), reading('b', '312 ±1.5'), computed('gap', gap('a', 'b'), 'max 1')]),
  step('sew', [tick('sewn')]),
]);

/** A bundle opened, worked on, held twice, reworked, conceded and finished. */
const whole: World = closed(
  [
    (w: World) => done(w, open),
    upTo('b'),
    answered('316'),
    (w: World) => done(w, hold('point')),
    (w: World) => done(w, settle(rework('mark'))),
    upTo('b'),
    answered('300'),
    (w: World) => done(w, hold('point')),
    (w: World) => done(w, settle(concession(), undefined, 'H-002')),
  ].reduce((world, deed) => deed(world), worldOf(procedure)),
  200,
);

/** What the replay says of these entries: the place of the first one refused, and why. */
function refused(entries: readonly RecordedEntry[]): object | undefined {
  const judge = replay((understood) => whole.texts.get(understood), 'nobody');
  for (const [index, entry] of entries.entries()) {
    const judged = judge.next(entry);
    if (!judged.ok) return { place: index, ...judged.error };
  }
  return undefined;
}

/** The entry in this place with another body, as somebody would write it who knows the form. */
function edited(index: number, change: object): readonly RecordedEntry[] {
  return whole.entries.map((entry, place) => {
    if (place !== index) return entry;
    const read = readEntry({ ...entry, body: { ...entry.body, ...change } });
    if (!read.ok) throw new Error(read.error.message);
    return read.value;
  });
}

const first = (kind: RecordedEntry['kind'], test: (body: object) => boolean = () => true): number =>
  whole.entries.findIndex((entry) => entry.kind === kind && test(entry.body));

test('what happened is what the rules allow', () => {
  expect(refused(whole.entries)).toBeUndefined();
});

test.each<readonly [string, RecordedEntry['kind'], object, RegExp]>([
  ['a value that the typed one does not come to', 'checked', { value: '21' }, /its value is "21" and should be "22"/],
  [
    'a verdict that the value does not have',
    'checked',
    { verdict: 'above' },
    /its verdict is "above" and should be "within"/,
  ],
  ['a limit that the text does not give', 'checked', { limit: '300' }, /its limit is "300"/],
  ['another text', 'opened', { digest: 'e'.repeat(64) }, /its digest is/],
  ['a point that is not the next', 'checked', { step: 'sew', point: 'sewn' }, /the rules refuse it: First comes/],
  ['a count that does not balance', 'finished', { good: 1 }, /the rules refuse it: There should be 2 good sets/],
  [
    'a concession that no limit was given for',
    'settled',
    { how: { ...concession(), name: 'K-001', limit: ' ' } },
    /the rules refuse it: A concession needs its limit/,
  ],
  ['a revision out of turn', 'released', { revision: 'C' }, /its revision is "C" and should be "A"/],
])('%s is refused', (_, kind, change, words) => {
  const index = first(kind);
  const rule = words.source.startsWith('the rules')
    ? { rule: 'entry-against-rule' }
    : { rule: 'entry-does-not-follow' };
  expect(refused(edited(index, change))).toMatchObject({
    place: index,
    ...rule,
    message: expect.stringMatching(words),
  });
});

test.each(['enrolled', 'released', 'ticketed', 'opened', 'caution-read', 'checked', 'held', 'settled'] as const)(
  'a ledger whose first %s is missing does not hang together',
  (kind) => {
    const index = first(kind);
    expect(refused(whole.entries.filter((_, place) => place !== index))).toBeDefined();
  },
);

test('two checks that changed places are refused', () => {
  const index = first('checked', (body) => 'point' in body && body.point === 'a');
  const [one, two] = whole.entries.slice(index, index + 2);
  if (!one || !two) throw new Error('the story is shorter than thought');
  expect(refused(whole.entries.with(index, two).with(index + 1, one))).toMatchObject({
    place: index,
    message: expect.stringMatching(/First comes/),
  });
});

test('somebody else than the hand at work, or a settling by who did the work, is refused', () => {
  const by = (kind: RecordedEntry['kind'], hand: RecordedEntry['hand']) =>
    refused(whole.entries.map((entry, place) => (place === first(kind) ? { ...entry, hand } : entry)));
  expect(by('checked', vera)).toMatchObject({ place: first('checked'), rule: 'entry-against-rule' });
  expect(by('settled', ines)).toMatchObject({ place: first('settled'), rule: 'entry-against-rule' });
});

test('what a command leaves together stays together', () => {
  const two = text([
    step('mark', [
      reading('a', '312 ±1.5'),
      reading('b', '312 ±1.5'),
      computed('gap', gap('a', 'b'), 'max 1'),
      tick('seen'),
    ]),
  ]);
  const world = [(w: World) => done(w, open), upTo('seen'), (w: World) => done(w, strike(w.entries.length - 2))].reduce(
    (so, deed) => deed(so),
    worldOf(two),
  );
  expect(world.entries.slice(-2).map(({ kind }) => kind)).toEqual(['struck', 'struck']);
  const judge = replay((understood) => world.texts.get(understood), 'nobody');
  const without = world.entries.toSpliced(-1, 1);
  const note: RecordedEntry = {
    ...world.entries.at(-1),
    kind: 'noted',
    body: { ticket: TICKET, set: null, step: null, text: 'so' },
  } as RecordedEntry;
  const judged = [...without, note].map((entry) => judge.next(entry)).at(-1);
  expect(judged).toMatchObject({
    ok: false,
    error: { rule: 'entry-not-due', message: expect.stringMatching(/struck by OP-02/) },
  });
});

describe('a PIN', () => {
  const room = [
    (w: World) =>
      done(w, {
        hand: vera,
        do: 'set pin',
        who: vera,
        salt: 'ab'.repeat(16),
        hash: 'cd'.repeat(32),
        n: 16,
        r: 8,
        p: 1,
      }),
    ...[1, 2, 3].map(() => (w: World) => done(w, { hand: THE_ROOM, do: 'fail pin', who: vera, for: 'retired' })),
    (w: World) => later(w, 3_600_000),
  ].reduce((w, deed) => deed(w), worldOf(procedure));
  const pin = room.room.pins.get(vera)?.seq ?? -1;
  const retired = decide(
    { ...situationOf(room), signing: { rule: 'supervisors', proof: { hand: vera, pin } } },
    { hand: vera, do: 'retire', who: ines },
  );
  if (!retired.ok) throw new Error(retired.error.message);
  const [proven, signed] = retired.value.map((draft, index) => {
    const read = readEntry({ seq: room.entries.length + 1 + index, ...draft });
    return read.ok ? read.value : expect.fail(read.error.message);
  });

  /** What the last of these entries comes to, after what stood before it under no rule of PINs. */
  const last = (...entries: readonly (RecordedEntry | undefined)[]) => {
    const judge = replay((understood) => room.texts.get(understood), 'nobody');
    for (const entry of room.entries) judge.next(entry);
    return entries.map((entry) => entry && judge.next(entry)).at(-1);
  };

  test('proven after wrong ones is noted just before what it signs, and nowhere else', () => {
    expect([proven?.kind, signed?.kind]).toEqual(['pin-proven', 'retired']);
    const unsigned = signed && ({ ...signed, body: { hand: ines } } as RecordedEntry);
    expect(last(proven, unsigned)).toMatchObject({ ok: false, error: { rule: 'entry-pin' } });
    expect(last(proven, proven)).toMatchObject({ ok: false, error: { rule: 'entry-pin' } });
    expect(last(unsigned)).toEqual({ ok: true });
  });

  test('that nobody proved signs nothing', () => {
    const judge = replay((understood) => whole.texts.get(understood));
    const judged = whole.entries.map((entry) => judge.next(entry)).find((each) => !each.ok);
    expect(judged).toMatchObject({ error: { rule: 'entry-against-rule', message: expect.stringMatching(/PIN/) } });
  });
});
