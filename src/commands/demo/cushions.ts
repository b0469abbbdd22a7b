import type { TicketId } from '../../base/brand.ts';
import { bundleStory } from './bundle-story.ts';
import { henk, ines, maj, piet, vera } from './hands.ts';
import type { Stage } from './stage.ts';
import { CUS, ties } from './tickets.ts';

/** Two rolls in one kit, found only where the boxing meets the plates. */
export async function twoRollsInOneKit(stage: Stage): Promise<void> {
  await ties(stage, piet, { ticket: 'B-1045', procedure: CUS, sets: 4, rolls: ['W-077', 'W-079'] });
  const story = bundleStory(stage, {
    ticket: 'B-1045' as TicketId,
    sewer: ines,
    second: henk,
    writes: { 'Roll of the cover cloth': 'W-077' },
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 6, set: 1, point: 'Roll number on BX' });
  await story.holds({
    name: 'H-032',
    about: 'bundle',
    reason: 'mixed rolls: the plates are from W-077, BX is from W-079, and they differ in shade',
  });
}

/** A twist between the plates, found by the diagonals, sent back and still being sewn again. */
export async function twistBetweenThePlates(stage: Stage): Promise<void> {
  await ties(stage, piet, { ticket: 'B-1044', procedure: CUS, sets: 4, rolls: ['W-077'] });
  const story = bundleStory(stage, {
    ticket: 'B-1044' as TicketId,
    sewer: maj,
    second: henk,
    writes: { 'Roll of the cover cloth': 'W-077' },
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 11, set: 1, point: 'M8: diagonal front left' });
  await story.reads('1191');
  await story.reads('1184');
  await story.reads('');
  await story.holds({ name: 'H-033', about: 'point', reason: 'twist: the diagonals differ by 7' });
  stage.time.pass(20 * 60);
  const rework = { as: 'rework', step: await story.step(9) } as const;
  await story.settles(vera, 'H-033', rework, 'open the back side, seat it again notch to notch; once only');
  stage.time.pass(5 * 60);
  await story.until({ step: 10, set: 1 });
  await story.pauses('end of the shift');
}
