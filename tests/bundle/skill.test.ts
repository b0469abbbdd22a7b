import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import { helpers } from '../../src/bundle/skill.ts';
import { handOver, hold, open, resume, rework, settle } from './deeds.ts';
import { answer, answered, given, upTo } from './story.ts';
import { reading, step, text, tick } from './texts.ts';
import { audit, emptyWorld, gone, ines, jon, olaf, stepId, vera, wants, worldOf } from './world.ts';

const skill = 'top-stitch vinyl';
const lining = text([
  step('mark', [tick('marked')]),
  step('sew', [tick('sewn'), reading('line', '312 ±1.5')], { cautions: ['WARNING'], needsSkill: skill }),
]);

const can = (who: HandId, level: number, hand = vera): Command => ({ do: 'set skill', hand, who, skill, level });
const help = (by: HandId, hand = ines, set = 1): Command => ({ do: 'help', hand, set, step: stepId('sew'), by });
/** Ines, in training, before the step that asks for more; Jon can teach it. */
const before = [can(ines, 1), can(jon, 4), open, answered('')];

test('below 3 a step asks for somebody beside, before its first caution; from 3 on for nobody', () => {
  expect(wants(given(lining, ...before).world)).toMatchObject({ want: 'helping', skill, level: 1 });
  expect(wants(given(lining, open, answered('')).world)).toMatchObject({ want: 'helping', level: 0 });
  expect(wants(given(lining, can(ines, 2), open, answered('')).world)).toMatchObject({ want: 'helping', level: 2 });
  for (const level of [3, 4])
    expect(wants(given(lining, can(ines, level), open, answered('')).world)).toMatchObject({ want: 'caution' });
});

test('who stands by does it alone, is there, works here, and is not the sewer', () => {
  const asking = given(lining, ...before, can(audit, 4), can(vera, 2));
  asking.when(help(jon)).leaves(['helped', { set: 1, step: 'sew', by: jon }]);
  asking.when(help(ines)).refused('help-self', /name Jon/);
  asking.when(help(vera)).refused('help-skill', /does not do .* alone: name Jon/);
  asking.when(help(olaf)).refused('help-skill', /Olaf does not do/);
  asking.when(help(gone)).refused('hand-retired');
  asking.when(help(audit)).refused('role');
  given(lining, open, answered(''))
    .when(help(jon))
    .refused('help-skill', /walkfoot hand skill/);
  expect(helpers(asking.world.room, ines, 'Top-Stitch  VINYL').map(({ id }) => id)).toEqual([jon]);
});

test('nothing else is done at the step before, and nobody is asked for twice', () => {
  const asking = given(lining, ...before);
  asking.when({ do: 'read caution', hand: ines, set: 1, step: stepId('sew'), caution: 1 }).refused('help-first');
  asking.when(help(jon, ines, 2)).refused('help-not-wanted');
  given(lining, ...before, help(jon))
    .when(help(jon))
    .refused('help-not-wanted');
  const done = given(lining, ...before, help(jon), upTo('line'), answered('312')).world;
  expect(wants(done)).toMatchObject({ want: 'point', at: { set: 2, step: { id: 'mark' } } });
  const second = given(done, upTo('helping')).world;
  expect(wants(second)).toMatchObject({ want: 'helping', at: { set: 2 } });
});

test('it is asked again of another sewer, and where the work went back', () => {
  const handed = given(lining, ...before, help(jon), upTo('line'), handOver(olaf), resume(olaf)).world;
  expect(wants(handed, olaf)).toMatchObject({ want: 'helping', level: 0 });
  const back = given(lining, ...before, help(jon), upTo('line'), answered('320'), hold(), settle(rework('sew'))).world;
  expect(wants(back)).toMatchObject({ want: 'helping' });
});

test('a bundle can be held where nobody can stand by', () => {
  given(lining, open, answered(''))
    .when(hold('bundle'))
    .leaves(['held', { step: 'sew' }]);
});

test('a supervisor enters levels, 0 to 4, of somebody who is here; the last one counts', () => {
  const room = given(lining);
  room.when(can(ines, 3)).leaves(['skilled', { hand: ines, skill, level: 3 }]);
  room.when(can(ines, 3, ines)).refused('role');
  room.when(can(gone, 3)).refused('hand-retired');
  for (const level of [5, -1, 2.5, Number.NaN]) room.when(can(ines, level)).refused('skill-level');
  for (const name of ['', ' ', 'x'.repeat(81), 'a\u001b[2J'])
    room.when({ ...can(ines, 3), do: 'set skill', who: ines, level: 3, skill: name }).refused('skill-words');
  const twice = given(lining, can(ines, 3), { ...can(ines, 1), skill: ' TOP-stitch   vinyl ' } as Command);
  expect([...(twice.world.room.skills.get(ines)?.values() ?? [])]).toEqual([{ skill: 'TOP-stitch vinyl', level: 1 }]);
  expect(emptyWorld.room.skills.size).toBe(0);
});

test('a procedure that asks for no skill asks for nobody', () => {
  const plain = text([step('sew', [tick('sewn')])]);
  given(worldOf(plain), open).when(answer('')).leaves(['checked']);
});
