import { expect, test } from 'vitest';
import { check, goBack, handOver, open, readCaution, resume, signOn } from './deeds.ts';
import { answered, given, upTo } from './story.ts';
import { reading, step, text, tick } from './texts.ts';
import { jon, wants } from './world.ts';

const warned = (readCautions: 'once a bundle' | 'once a shift' | 'every time') =>
  text(
    [
      step('cut', [tick('cut')], { cautions: ['DANGER', 'NOTICE'], backTo: 'cut' }),
      step('sew', [reading('line', '312 ±1.5')], { cautions: ['WARNING'], backTo: 'cut' }),
    ],
    {
      readCautions,
    },
  );
const CUT = [readCaution('cut', 1, 1), readCaution('cut', 1, 2)];

test('cautions of a step come before its points, one after the other', () => {
  given(warned('once a bundle'), open)
    .when(check('cut', 'cut', 1))
    .refused('caution-first');
  given(warned('once a bundle'), open)
    .when(readCaution('cut', 1, 2))
    .refused('not-next');
  given(warned('once a bundle'), open).when(readCaution('cut', 2)).refused('not-next');
  given(warned('once a bundle'), open)
    .when(readCaution('cut', 1))
    .leaves(['caution-read', { caution: 1, set: 1 }]);
  given(warned('once a bundle'), open, ...CUT)
    .when(readCaution('cut', 1, 2))
    .refused('not-next');
  given(warned('once a bundle'), open, ...CUT)
    .when(check('cut', 'cut', 1))
    .leaves(['checked']);
});

test('once a bundle means once for each hand, whatever set and however often the work goes back', () => {
  const set2 = given(warned('once a bundle'), open, upTo('cut', { set: 2 })).world;
  expect(set2.bundle?.cautionsRead.map((read) => read.set)).toEqual([1, 1, 1]);
  expect(wants(given(set2, handOver(jon), resume(jon)).world, jon)).toMatchObject({ want: 'caution', of: 2 });
  const back = given(warned('once a bundle'), open, upTo('line'), answered('300'), goBack()).world;
  expect(wants(back)).toMatchObject({ want: 'point' });
});

test('every time means for each set, and again when the work goes back', () => {
  expect(wants(given(warned('every time'), open, upTo('line'), answered('312')).world)).toMatchObject({
    want: 'caution',
    at: { set: 2 },
  });
  expect(wants(given(warned('every time'), open, upTo('line'), answered('300'), goBack()).world)).toMatchObject({
    want: 'caution',
    at: { set: 1, step: { id: 'cut' } },
  });
});

test('once a shift means once since signing on', () => {
  const set2 = given(warned('once a shift'), signOn(), open, upTo('cut', { set: 2 })).world;
  expect(wants(set2)).toMatchObject({ want: 'point' });
  expect(wants(given(set2, signOn()).world)).toMatchObject({ want: 'caution', caution: { word: 'DANGER' } });
  expect(wants(given(set2, signOn(jon)).world)).toMatchObject({ want: 'point' });
});
