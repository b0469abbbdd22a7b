import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import { type Paper, THE_ROOM } from '../../src/bundle/entries.ts';
import { finish, open, setPin } from './deeds.ts';
import { answered, given } from './story.ts';
import { step, text, tick } from './texts.ts';
import { audit, digest, ines, LIN, release, TICKET, vera, type World, withText } from './world.ts';

const lining = text([step('sew', [tick('sewn')])]);

const print = (what: Paper = 'label', hand: HandId = THE_ROOM): Command => ({ hand, do: 'print', what });
const asking = (world: World): World => ({ ...world, rule: 'supervisors' });

test('whoever makes a ticket prints it, once and without a PIN', () => {
  const made = given(lining, asking);
  made.when(print()).leaves(['printed', { ticket: TICKET, what: 'label', copy: 0, digest: digest('a'), nth: 1 }]);
  made.when(print('sheet', ines), null).leaves(['printed', { what: 'sheet', copy: 0 }]);
  made.when(print('label', audit)).refused('role');
});

test('every paper after the first is a numbered copy, which a supervisor signs', () => {
  const printed = given(lining, asking, setPin(vera), print());
  printed.when(print()).refused('copy-supervisor', /--hand/);
  printed.when(print('sheet', ines)).refused('role', /supervisor/);
  printed.when(print('sheet', vera), null).refused('pin-needed', /^Vera/);
  const once = printed.when(print('sheet', vera)).leaves(['printed', { what: 'sheet', copy: 1, signed: true }]);
  given(once)
    .when(print('label', vera))
    .leaves(['printed', { what: 'label', copy: 2, signed: true }]);
});

test('paper says the text the bundle is on; before it is opened, the one it would be opened with', () => {
  given(lining, (world) => withText(world, 'b', lining), release('b'))
    .when(print())
    .leaves(['printed', { digest: digest('b') }]);
  given(lining, open, release('b'))
    .when(print('sheet'))
    .leaves(['printed', { digest: digest('a') }]);
});

test('nothing is printed for a bundle that is finished, or has no text', () => {
  given(lining, open, answered(), answered(), finish(2)).when(print()).refused('finished');
  given(lining, { hand: vera, do: 'withdraw', procedure: LIN, revision: 'A', reason: 'wrong limit' } as const)
    .when(print())
    .refused('no-release');
});

test('printing leaves the work as it stands', () => {
  const before = given(lining, open, answered()).world.bundle;
  const after = given(lining, open, answered(), print()).world.bundle;
  expect({ ...after, printed: 0, lastAt: before?.lastAt, lastSeq: before?.lastSeq, entries: 3 }).toEqual({
    ...before,
    entries: 3,
  });
});
