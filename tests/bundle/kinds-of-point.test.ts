import { test } from 'vitest';
import { handOver, open, resume, startClock, strike } from './deeds.ts';
import { answer, answered, given, upTo, wait } from './story.ts';
import { choice, computed, count, gap, holdPoint, reading, step, text, tick, timed, written } from './texts.ts';
import { ines, jon, olaf, vera } from './world.ts';

const MINUTE = 60_000;

const one = (point: Parameters<typeof step>[1][number]) => text([step('sew', [point, tick('end')])]);
const sewn = (...points: Parameters<typeof step>[1]) => text([step('sew', points)]);

test('a tick is recorded as done, and takes no words', () => {
  given(one(tick('edges')), open)
    .when(answer())
    .leaves(['checked', { value: 'done', verdict: 'not judged', place: 1 }]);
  given(one(tick('edges')), open)
    .when(answer('312'))
    .refused('tick-only');
});

test('a reading is kept as typed and as understood, with its limit and verdict', () => {
  const line = one(reading('line', '312 ±1.5'));
  given(line, open)
    .when(answer('31,2 cm'))
    .leaves(['checked', { typed: '31,2 cm', value: '312', unit: 'mm', limit: '310.5 to 313.5 mm', verdict: 'within' }]);
  given(line, open)
    .when(answer('314'))
    .leaves(['checked', { verdict: 'above', by: '0.5' }]);
  given(line, open)
    .when(answer('12 1/4 in'))
    .leaves(['checked', { value: '311.15', verdict: 'within' }]);
  given(line, open).when(answer(' ')).refused('answer-missing');
  given(line, open).when(answer('3 kg')).refused('unit-of-another-kind');
  given(line, open).when(answer('abc')).refused('number-unreadable');
  given(one(reading('line')), open)
    .when(answer('5'))
    .leaves(['checked', { limit: null, verdict: 'not judged' }]);
});

test('a count is whole', () => {
  given(one(count('pieces', '22')), open)
    .when(answer('22'))
    .leaves(['checked', { unit: 'pcs', verdict: 'within' }]);
  given(one(count('pieces', '22')), open)
    .when(answer('21'))
    .leaves(['checked', { verdict: 'below', by: '1' }]);
  given(one(count('pieces', '22')), open)
    .when(answer('2.5'))
    .refused('count-not-whole');
});

test('a choice is typed whole, by its beginning or by its number', () => {
  const shade = one(choice('shade', '*match', 'lighter', 'darker'));
  for (const typed of ['match', 'MATCH', 'm', '1'])
    given(shade, open)
      .when(answer(typed))
      .leaves(['checked', { value: 'match', limit: 'match', verdict: 'within' }]);
  given(shade, open)
    .when(answer('darker'))
    .leaves(['checked', { value: 'darker', verdict: 'unacceptable' }]);
  given(shade, open)
    .when(answer('li'))
    .leaves(['checked', { value: 'lighter' }]);
  for (const typed of ['', 'x', '0', '4', '-1']) given(shade, open).when(answer(typed)).refused('no-such-choice');
  given(one(choice('lock', '*middle', 'mixed')), open)
    .when(answer('mi'))
    .refused('no-such-choice');
});

test('an option that is itself a number is taken for its words first', () => {
  given(one(choice('needle', '90', '*2', '1')), open)
    .when(answer('2'))
    .leaves(['checked', { value: '2' }]);
});

test('written words are kept, not blank and not endless', () => {
  given(one(written('roll')), open)
    .when(answer(' R-318 '))
    .leaves(['checked', { typed: ' R-318 ', value: 'R-318' }]);
  given(one(written('roll')), open)
    .when(answer('  '))
    .refused('answer-missing');
  given(one(written('roll')), open)
    .when(answer('x'.repeat(200)))
    .leaves(['checked']);
  given(one(written('roll')), open)
    .when(answer('x'.repeat(201)))
    .refused('answer-long');
});

test('a timed point is started, then stopped: the program reads the clock', () => {
  const flash = one(timed('flash', 'min 10'));
  given(flash, open).when(answer()).refused('clock-not-started');
  given(flash, open)
    .when(startClock('sew', 'flash'))
    .leaves(['clock-started', { point: 'flash', set: 1 }]);
  given(flash, open, startClock('sew', 'flash')).when(startClock('sew', 'flash')).refused('clock-runs');
  given(flash, open, startClock('sew', 'flash')).when(answer('10')).refused('clock-only');
  given(flash, open, startClock('sew', 'flash'), wait(9 * MINUTE))
    .when(answer())
    .leaves(['checked', { typed: '', value: '10', unit: 'min', verdict: 'within' }]);
  given(one(tick('edges')), open)
    .when(startClock('sew', 'edges'))
    .refused('not-timed');
  given(flash, open).when(startClock('sew', 'end')).refused('not-next');
});

test('a clock stopped too early goes on', () => {
  given(one(timed('flash', 'min 10')), open, startClock('sew', 'flash'), answered(), wait(8 * MINUTE))
    .when(answer())
    .leaves(['checked', { value: '10', verdict: 'within' }]);
});

test('a clock stopped too late is started anew', () => {
  const late = given(one(timed('press', 'max 2')), open, startClock('sew', 'press'), wait(5 * MINUTE), answered());
  late.when(answer()).refused('clock-not-started');
  late.when(startClock('sew', 'press')).leaves(['clock-started']);
});

const diagonals = sewn(
  reading('d1', '1818 +4/-2'),
  reading('d2', '1818 +4/-2'),
  computed('square', gap('d1', 'd2'), 'max 4'),
);

test('a computed point is worked out from what was typed, not from what was shown', () => {
  given(diagonals, open, answered('71 5/8 in'), answered('1818'))
    .when(answer())
    .leaves(['checked', { typed: '', value: '1.275', unit: 'mm', limit: 'at most 4 mm', verdict: 'within' }]);
  given(diagonals, open, answered('1816'), answered('1822'))
    .when(answer())
    .leaves(['checked', { verdict: 'above', by: '2' }]);
  given(diagonals, open, answered('1816'), answered('1822')).when(answer('3')).refused('worked-out');
});

test('a computed point in another unit than those it names, and one that names another computed point', () => {
  const inches = sewn(
    reading('a'),
    reading('b'),
    computed('g', gap('a', 'b'), 'max 30'),
    computed('h', gap('g', 'b'), undefined, 'in'),
  );
  given(inches, open, answered('60.8'), answered('35.4'), answered())
    .when(answer())
    .leaves(['checked', { value: '0.393701' }]);
});

test('what is worked out is rounded only when it is shown', () => {
  const name = (of: string) => ({ do: 'name', name: of }) as const;
  const by = (of: string, value: string) => ({ left: name(of), right: { do: 'number', value } }) as const;
  const inch = sewn(
    reading('a', undefined, { unit: 'in' }),
    computed('back', { do: '*', ...by('a', '25.4') }, '1', 'in'),
  );
  given(inch, open, answered('1 mm'))
    .when(answer())
    .leaves(['checked', { value: '1', verdict: 'within' }]);
  const third = sewn(
    reading('a'),
    computed('third', { do: '/', ...by('a', '3') }),
    computed('whole', { do: '*', ...by('third', '3') }, '1'),
  );
  given(third, open, answered('1'), answered())
    .when(answer())
    .leaves(['checked', { value: '1', verdict: 'within' }]);
});

test('a computed point takes the readings of its own set, and those of the whole bundle', () => {
  const text2 = text([
    step('kit', [reading('a')], { scope: 'bundle' }),
    step('sew', [reading('b'), computed('g', gap('a', 'b'))]),
  ]);
  given(text2, open, answered('100'), answered('90'), answered(), answered('70'))
    .when(answer())
    .leaves(['checked', { set: 2, value: '30' }]);
});

test('what can’t be worked out says so', () => {
  given(sewn(computed('g', gap('a', 'b')), reading('a'), reading('b')), open)
    .when(answer())
    .refused('not-computable');
});

test('a hold point takes a second person, a supervisor who has not worked on this set', () => {
  const seen = text([step('sew', [tick('edges'), holdPoint('seen')])]);
  const ready = given(seen, open, answered());
  ready.when(answer()).refused('second-person');
  ready.when(answer('', { witness: olaf })).leaves(['checked', { witness: olaf, value: 'done' }]);
  ready.when(answer('ok', { witness: olaf })).refused('tick-only');
  ready.when(answer('', { witness: jon })).refused('role');
  given(seen, open)
    .when(answer('', { witness: olaf }))
    .refused('no-witness');
});

test('nobody releases their own work, and work on another set is not this set’s', () => {
  const seen = text([step('sew', [tick('edges'), holdPoint('seen')])]);
  const byVera = [open, handOver(vera), resume(vera), answered('', { by: vera })];
  given(seen, ...byVera)
    .when(answer('', { by: vera, witness: vera }))
    .refused('own-work');
  given(seen, ...byVera, handOver(ines, vera), resume())
    .when(answer('', { witness: vera }))
    .refused('own-work');
  given(seen, ...byVera, handOver(ines, vera), resume(), upTo('seen', { set: 2 }))
    .when(answer('', { witness: vera }))
    .leaves(['checked', { set: 2, witness: vera }]);
});

test('a struck check is own work all the same', () => {
  const seen = text([step('sew', [tick('edges'), holdPoint('seen')])]);
  const slip = given(seen, open, handOver(vera), resume(vera), answered('', { by: vera })).world;
  given(slip, strike(slip.entries.length, vera), handOver(ines, vera), resume(), answered())
    .when(answer('', { witness: vera }))
    .refused('own-work');
});
