import { expect, test } from 'vitest';
import { check, finish, goBack, hold, leave, open } from './deeds.ts';
import { answer, answered, given, upTo } from './story.ts';
import { reading, step, text, tick } from './texts.ts';
import { jon, type World, wants } from './world.ts';

/** What a hand is asked for, in order, as `step/set/point/place`, answering all well. */
function itinerary(world: World): readonly string[] {
  const asked: string[] = [];
  let here = world;
  for (let wanted = wants(here); wanted.want === 'point' && asked.length < 100; wanted = wants(here)) {
    asked.push(`${wanted.at.set ?? 'all'} ${wanted.point.id}${wanted.place > 1 ? wanted.place : ''}`);
    here = answered(wanted.point.kind === 'reading' ? '312' : '')(here);
  }
  return [...asked, wants(here).want];
}

const barriers = [
  step('kit', [tick('counted')], { scope: 'bundle' }),
  step('mark', [tick('marked')]),
  step('sew', [reading('line', '312 ±1.5', { places: 2 }), tick('sewn')]),
  step('tie', [tick('tied')], { scope: 'bundle' }),
];

test('set by set: one set through the steps, then the next; a step for the whole bundle waits for all', () => {
  expect(itinerary(given(text(barriers), open).world)).toEqual([
    'all counted',
    ...['1 marked', '1 line', '1 line2', '1 sewn'],
    ...['2 marked', '2 line', '2 line2', '2 sewn'],
    ...['all tied', 'finish'],
  ]);
});

test('step by step: each step on all sets', () => {
  expect(itinerary(given(text(barriers, { work: 'step by step' }), open).world)).toEqual([
    'all counted',
    ...['1 marked', '2 marked'],
    ...['1 line', '1 line2', '1 sewn', '2 line', '2 line2', '2 sewn'],
    ...['all tied', 'finish'],
  ]);
});

test('points come in order, and only once', () => {
  const start = given(text(barriers), open);
  start.when(check('sew', 'sewn', 1)).refused('not-next');
  start.when(check('kit', 'counted', 1)).refused('not-next');
  start.when(check('kit', 'counted', null, 2)).refused('not-next');
  given(text(barriers), open, answered())
    .when(check('kit', 'counted', null))
    .refused('done-already');
  given(text(barriers), open, upTo('line'), answered('312'))
    .when(check('sew', 'line', 1, 1))
    .refused('done-already');
  given(text(barriers), open, upTo('finish'))
    .when(check('tie', 'tied', null))
    .refused('nothing-left');
});

test('nothing is answered before the bundle is opened, or by a hand who does not have it', () => {
  given(text(barriers))
    .when(check('kit', 'counted', null))
    .refused('not-opened');
  given(text(barriers), open)
    .when(check('kit', 'counted', null, 1, jon))
    .refused('not-at-work');
  given(text(barriers), open, leave)
    .when(check('kit', 'counted', null))
    .refused('not-at-work');
  given(text(barriers), open, hold())
    .when(check('kit', 'counted', null))
    .refused('on-hold');
});

const out = (backTo?: string) =>
  text([
    step('mark', [tick('marked')]),
    step('sew', [reading('line', '312 ±1.5'), tick('sewn')], backTo ? { backTo } : {}),
  ]);

test('a reading out of its limit opens the way to measure again and to hold, and no further', () => {
  const measured = given(out(), open, answered(), answered('320'));
  measured.when(check('sew', 'sewn', 1)).refused('not-next');
  measured.when(finish(2)).refused('not-done');
  measured.when(answer('312')).leaves(['checked', { verdict: 'within' }]);
  measured.when(hold()).leaves(['held', { step: 'sew', point: 'line', set: 1 }]);
  measured.when(goBack()).refused('no-way-back');
  expect(wants(measured.world)).toMatchObject({ want: 'point', outside: { value: '320', verdict: 'above' } });
});

test('`If out: back to …` sends this set back, and all from there on is asked again', () => {
  const measured = given(out('mark'), open, answered(), answered('320'));
  measured.when(goBack(' ')).refused('reason-missing');
  const back = measured.when(goBack()).leaves(['sent-back', { set: 1, step: 'mark', again: ['mark', 'sew'] }]);
  expect(wants(back)).toMatchObject({ want: 'point', at: { set: 1 }, point: { id: 'marked' }, outside: null });
  given(out('mark'), open, answered()).when(goBack()).refused('nothing-outside');
  given(out('mark'), open, upTo('line', { set: 2 }), answered('320'))
    .when(goBack())
    .leaves(['sent-back', { set: 2 }]);
});

test('what set 2 sends back leaves set 1 done', () => {
  const back = given(out('mark'), open, upTo('line', { set: 2 }), answered('320'), goBack()).world;
  expect(itinerary(back)).toEqual(['2 marked', '2 line', '2 sewn', 'finish']);
});
