import type { TicketId } from '../../base/brand.ts';
import { formatStamp, type Instant } from '../../base/instant.ts';
import { bundleStory } from './bundle-story.ts';
import { henk, piet, tomas, vera } from './hands.ts';
import type { Stage } from './stage.ts';
import { HOD, ties } from './tickets.ts';

/** A scratch that is too long for sale and good enough for display. */
export async function scratchInTheWindow(stage: Stage): Promise<void> {
  await ties(stage, piet, { ticket: 'B-1046', procedure: HOD, sets: 3, rolls: ['A-019'] });
  const story = bundleStory(stage, {
    ticket: 'B-1046' as TicketId,
    sewer: tomas,
    second: vera,
    writes: { 'Roll of the canvas': 'A-019', 'Batch of the clear sheet': 'S-204' },
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 12, set: 1, point: 'M10' });
  await story.reads('0');
  await story.until({ step: 12, set: 2, point: 'M10' });
  await story.reads('30');
  await story.holds({ name: 'H-029', about: 'point', reason: 'one scratch of 30 mm in the clear sheet of panel 2' });
  stage.time.pass(15 * 60);
  const concession = {
    as: 'concession',
    name: 'K-017',
    limit: '1 panel, display only',
    expires: lastDay(stage.time.clock()),
  } as const;
  await story.settles(henk, 'H-029', concession, 'the panel is whole and goes to the show frame, not on a boat');
  await story.until({ step: 12, set: 3, point: 'M10' });
  await story.reads('0');
  await story.until('all is done');
  await story.finishes(3);
}

/** The story's day while that is still to come; afterwards, so that the room can be made in later years too, the end of the year. */
function lastDay(now: Instant): string {
  const today = formatStamp(now).slice(0, 10);
  return today <= '2026-12-31' ? '2026-12-31' : `${today.slice(0, 4)}-12-31`;
}
