import type { TicketId } from '../../base/brand.ts';
import { type BundleStory, bundleStory } from './bundle-story.ts';
import { henk, ines, maj, piet, tomas, vera } from './hands.ts';
import type { Stage } from './stage.ts';
import { LIN, ties } from './tickets.ts';

/** A kit of the old revision: begun while it was the current one, and left for the night. */
export async function opensOnTheOldRevision(stage: Stage): Promise<BundleStory> {
  await ties(stage, piet, { ticket: 'B-1043', procedure: LIN, sets: 2, rolls: ['R-301'] });
  stage.time.pass(45 * 60);
  const story = bundleStory(stage, {
    ticket: 'B-1043' as TicketId,
    sewer: maj,
    second: henk,
    writes: { 'Roll of the': 'R-301' },
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 1, point: 'Shade against the swatch' });
  await story.pauses('end of the shift');
  return story;
}

/** The next morning there is a new revision, and the kit is held where the ticket is compared with it. */
export async function isHeldAtTheKit(story: BundleStory): Promise<void> {
  await story.signsOn();
  await story.resumes();
  await story.until({ step: 1, point: 'Revision on the ticket' });
  await story.holds({
    name: 'H-030',
    about: 'bundle',
    reason: 'kitted on revision B, and revision C is released: is this kit still good?',
  });
}

/** A seam beside its good line is found before the join: the panel is recut, and only that panel is lost. */
export async function seamBesideItsLine(stage: Stage): Promise<void> {
  await ties(stage, piet, { ticket: 'B-1042', procedure: LIN, sets: 2, rolls: ['R-318', 'R-322'] });
  const story = bundleStory(stage, {
    ticket: 'B-1042' as TicketId,
    sewer: tomas,
    second: henk,
    writes: { ...LINING_ROLLS, 'Label sewn in': 'B-1042' },
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 3, point: 'M2a: line on C' });
  for (const line of ['312', '312', '312']) await story.reads(line);
  await story.until({ step: 4, point: 'M2b: seam on C' });
  for (const seam of ['312', '313', '316', '316']) await story.reads(seam);
  await story.holds({
    name: 'H-031',
    about: 'point',
    reason: 'seam on C drifted off a good line to 316 at the port end; the holes show on the face, so no re-sew',
  });
  stage.time.pass(25 * 60);
  await story.notes('C-R1 cut from R-318 in place of C, sleeve D4-R1 in place of D4', piet);
  stage.time.pass(5 * 60);
  const recut = { as: 'recut', piece: 'C', newPiece: 'C-R1', roll: 'R-318', step: await story.step(3) } as const;
  await story.settles(vera, 'H-031', recut, 'C cannot be sewn again; found before the join, so A and B stay good');
  await story.notes('C-R1 and D4-R1 taken into set 1, C and D4 cut up');
  await story.until('all is done');
  await story.finishes(2);
}

/** A clean run with a power cut in it, left before the top-stitch so that somebody can go on. */
export async function cleanRunWithAPowerCut(stage: Stage): Promise<void> {
  await ties(stage, piet, { ticket: 'B-1041', procedure: LIN, sets: 2, rolls: ['R-318', 'R-322'] });
  const story = bundleStory(stage, {
    ticket: 'B-1041' as TicketId,
    sewer: ines,
    second: vera,
    writes: LINING_ROLLS,
  });
  await story.signsOn();
  await story.opens();
  await story.until({ step: 7, set: 1, point: 'M4: allowance at B–C', place: 2 });
  // The power goes: nothing is recorded, and nothing that was recorded is lost.
  stage.time.pass(22 * 60);
  await story.signsOn();
  await story.resumes();
  await story.notes('power was off for twenty minutes; the motor switch was off before it came back');
  await story.until({ step: 9, set: 1 });
  await story.pauses('end of the shift');
}

const LINING_ROLLS = { 'Roll of the plain vinyl': 'R-318', 'Roll of the perforated vinyl': 'R-322' };
