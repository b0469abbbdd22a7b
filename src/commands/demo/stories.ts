import { twistBetweenThePlates, twoRollsInOneKit } from './cushions.ts';
import { enrolHands, henk, piet, vera } from './hands.ts';
import { scratchInTheWindow } from './hood.ts';
import { cleanRunWithAPowerCut, isHeldAtTheKit, opensOnTheOldRevision, seamBesideItsLine } from './linings.ts';
import type { ReleaseNext } from './releases.ts';
import type { Stage } from './stage.ts';
import { CUS, CUT, HOD, LIN, ties } from './tickets.ts';

/** The past of the practice room, in the order of its station's ledger: the last four working days in full. */
export async function tellStories(stage: Stage, releaseNext: ReleaseNext): Promise<void> {
  const { time } = stage;
  time.turnTo(60, '08:00');
  await enrolHands(stage);
  time.turnTo(58, '10:00');
  for (const procedure of [LIN, CUS]) await releaseNext(procedure, vera);
  time.turnTo(30, '16:00');
  for (const procedure of [LIN, CUS, HOD, CUT]) await releaseNext(procedure, henk);

  time.turnTo(4, '07:30');
  await scratchInTheWindow(stage);
  time.turnTo(4, '15:00');
  const oldKit = await opensOnTheOldRevision(stage);

  time.turnTo(3, '06:50');
  await releaseNext(LIN, vera);
  time.turnTo(3, '07:10');
  await isHeldAtTheKit(oldKit);
  time.turnTo(3, '08:00');
  await seamBesideItsLine(stage);

  time.turnTo(2, '07:20');
  await twoRollsInOneKit(stage);
  time.turnTo(2, '14:40');
  await twistBetweenThePlates(stage);

  time.turnTo(1, '14:15');
  await cleanRunWithAPowerCut(stage);
  time.turnTo(1, '15:40');
  await ties(stage, piet, { ticket: 'B-1047', procedure: LIN, sets: 2, rolls: ['R-340', 'R-344'] });
  await ties(stage, piet, { ticket: 'B-1048', procedure: CUT, sets: 1, rolls: ['R-340', 'R-344'] });
}
