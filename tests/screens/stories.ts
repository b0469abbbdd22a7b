import Fraction from 'fraction.js';
import type { App } from '../../src/app/app.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { Digest, StepId } from '../../src/base/brand.ts';
import { refuse } from '../../src/base/result.ts';
import type { StationThread } from '../../src/bundle/bobbin.ts';
import type { Command } from '../../src/bundle/command.ts';
import type { PinRule } from '../../src/bundle/signature.ts';
import type { SeenPicture } from '../../src/picture/seen-picture.ts';
import { differences } from '../../src/procedure/differences.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { type Workroom, workroom } from '../app/workroom.ts';
import { readSample } from '../picture/read-sample.ts';
import { changedLining, lining, press } from './lining.ts';

interface Scene {
  readonly room: Workroom;
  readonly program: AppStore;
}
interface Story {
  /** Whose PIN is asked; nobody's in stories that are not about it. */
  readonly rule?: PinRule;
  /** Metres of bobbin thread that step 3 takes, of bobbins of 30 m. */
  readonly takes?: number;
  readonly as?: Partial<App>;
  /** The keys that lead to the screen. */
  readonly keys: string;
  /** What happens besides keys, before the picture is taken. */
  readonly after?: (scene: Scene) => Promise<void>;
}

const kit = '"ines" enter "b-1" enter "22" enter "R-318" enter 1 enter';
/** Ines before the clock of set 1. */
const flashed = `${kit} "1819" enter "1817" enter enter`;
const toSettle =
  '"ines" enter "b-1" enter h "one strap short" enter s "vera" enter 1 enter enter enter "count again" enter';
const again = 'h "one strap short" enter s "vera" enter 1 enter enter enter "count again" enter';
const asOther = '"vera" enter';

async function flash({ room, program }: Scene): Promise<void> {
  await press(program, 'enter');
  room.clock.pass(12 * 60);
  await press(program, 'enter');
}

/** Ines at step 3 of set 1, cautions read. */
const sewing =
  (keys: string) =>
  async (scene: Scene): Promise<void> => {
    await flash(scene);
    await press(scene.program, `enter enter ${keys}`);
    scene.program.tell({ news: 'second' });
    await scene.program.settled();
  };

const drawing: SeenPicture = {
  is: 'drawing',
  digest: 'd'.repeat(64) as Digest,
  drawing: readSample('lining'),
  scale: 'to scale',
};

/** Dark above, light below, a lighter spot in the middle. */
const photograph: SeenPicture = {
  is: 'photograph',
  digest: 'f'.repeat(64) as Digest,
  bytes: new Uint8Array(),
  greys: {
    columns: 30,
    rows: 20,
    values: Uint8Array.from({ length: 600 }, (_, at) =>
      Math.hypot((at % 30) - 15, Math.floor(at / 30) - 10) < 4 ? 255 : Math.floor(at / 30) * 9,
    ),
  },
};

const refused = refuse('picture-broken', 'This picture cannot be read; save it again as JPEG or PNG.');
const broken: SeenPicture = { is: 'unshown', why: refused.error };

/** Ines at step 3 of set 1, its picture read or (null) not yet. */
function showing(seen: SeenPicture | null, keys: string) {
  return async (scene: Scene): Promise<void> => {
    await sewing('')(scene);
    const { play } = scene.program.app();
    if (!play) throw new Error('no bundle');
    if (seen)
      scene.program.tell({ news: 'pictures', pictures: { of: play.procedure, found: new Map([[PICTURE, seen]]) } });
    await press(scene.program, keys);
  };
}

const PICTURE = '../media/lining.svg';

const upToHoldPoint = 'enter "312" enter "311" enter "312.5" enter "28" enter enter';

const threadOf = (metres: number): StationThread => ({
  full: new Fraction(30_000),
  takes: new Map([
    [readProcedure(lining, 'T-1.md').procedure.steps[2]?.id ?? ('' as StepId), new Fraction(Math.round(metres * 1000))],
  ]),
});

/** A desk with two drafts: one with something to mend, one that is not its last revision any more. */
function deskOf(): Partial<App> {
  const [before, after] = [lining, changedLining].map((words) => readProcedure(words, 'procedures/T-1.md').procedure);
  const bad = readProcedure(lining.replace('T-1', 'T-2').replace('(22)', '(22'), 'procedures/T-2.md');
  if (!before || !after) throw new Error('two texts');
  const draft = { withdrawn: false, isReleased: false, changes: [], findings: [] } as const;
  const inSheet = bad.findings.map((finding) => ({ ...finding, file: 'procedures/T-2.es.md' }));
  const drafts = [
    { ...draft, file: 'procedures/T-1.md', procedure: after, revision: 'A', changes: differences(before, after) },
    { ...draft, ...bad, file: 'procedures/T-2.md', revision: null, findings: [...bad.findings, ...inSheet] },
  ];
  return { home: 'desk', desk: { drafts } };
}

/** One story for each screen and for each kind of point. */
export const stories: Readonly<Record<string, Story>> = {
  'sign-on': { keys: 'down' },
  'sign-on-unknown': { keys: '"zoe" enter' },
  station: { keys: '"ines" enter' },
  'station-open': { keys: '"ines" enter "b-1" enter "22" enter esc l' },
  count: { keys: '"ines" enter "b-1" enter "2"' },
  'count-outside': { keys: '"ines" enter "b-1" enter "21" enter' },
  written: { keys: '"ines" enter "b-1" enter "22" enter "R-318"' },
  'one-key': { keys: '"ines" enter "b-1" enter "22" enter "R-318" esc' },
  choice: { keys: '"ines" enter "b-1" enter "22" enter "R-318" enter 2' },
  'choice-outside': { keys: '"ines" enter "b-1" enter "22" enter "R-318" enter 2 enter' },
  converted: { keys: `${kit} "71 1/2 in"` },
  'unit-refused': { keys: `${kit} "3 kg" enter` },
  computed: { keys: `${kit} "1819" enter "1817" enter` },
  'computed-outside': { keys: `${kit} "1822" enter "1816" enter enter` },
  timed: { keys: flashed },
  'timed-running': {
    keys: `${flashed} enter`,
    after: async ({ room, program }) => {
      room.clock.pass(4 * 60 + 5);
      program.tell({ news: 'second' });
      await program.settled();
    },
  },
  caution: { keys: flashed, after: flash },
  notice: {
    keys: flashed,
    after: async (scene) => {
      await flash(scene);
      await press(scene.program, 'enter');
    },
  },
  tick: { keys: flashed, after: sewing('') },
  places: { keys: flashed, after: sewing('enter "312" enter "12 1/4 in" enter "31"') },
  outside: { keys: flashed, after: sewing('enter "312" enter "316" enter') },
  'picture-beside': { keys: flashed, after: showing(drawing, 'enter "312" enter "31"') },
  picture: { keys: flashed, after: showing(drawing, 'p') },
  'picture-again': { keys: flashed, after: showing(drawing, 'l "b-1" enter p') },
  'picture-photograph': { keys: flashed, after: showing(photograph, 'p') },
  'picture-broken': { keys: flashed, after: showing(broken, 'p') },
  'picture-broken-beside': { keys: flashed, after: showing(broken, '') },
  'picture-unread': { keys: flashed, after: showing(null, 'p') },
  'hold-again': {
    rule: 'supervisors',
    keys: `${toSettle} "7305" enter "7305" enter h "the strap is torn" enter`,
  },
  'look-back-signed': {
    rule: 'supervisors',
    keys: flashed,
    after: sewing(`${upToHoldPoint} "vera" enter "7305" enter "7305" enter b`),
  },
  'hold-point': { keys: flashed, after: sewing(`${upToHoldPoint} "ver"`) },
  'own-work-refused': { keys: flashed, after: sewing(`${upToHoldPoint} "ines" enter`) },
  undo: { keys: flashed, after: sewing('enter u') },
  hold: {
    keys: flashed,
    after: async (scene) => {
      await sewing('enter "316" enter h "hole beside the line, sleeve D1" enter')(scene);
      scene.room.clock.pass(11 * 60);
      scene.program.tell({ news: 'second' });
      await scene.program.settled();
    },
  },
  'let-through': {
    keys: '"ines" enter "b-1" enter "21" enter h "one strap short" enter',
    after: ({ program }) =>
      press(program, 's "vera" enter 3 enter "this bundle only" enter "2026-12-31" enter "cut later" enter'),
  },
  'form-hold': { keys: flashed, after: sewing('enter "316" enter h "hole beside"') },
  'form-settle': {
    keys: flashed,
    after: sewing('enter "316" enter h "hole beside the line" enter s "vera" enter'),
  },
  'form-settle-step': {
    keys: flashed,
    after: sewing('enter "316" enter h "hole beside the line" enter s "vera" enter 1 enter "9" enter'),
  },
  pin: { rule: 'supervisors', keys: `${toSettle} "7305" enter "7305" enter ${again} "730"` },
  'pin-new': { rule: 'supervisors', keys: `${toSettle} "73" enter` },
  'pin-wrong': { rule: 'supervisors', keys: `${toSettle} "7305" enter "7305" enter ${again} "7306" enter` },
  helping: {
    keys: flashed,
    after: async (scene) => {
      await flash(scene);
      await enters(scene.room, 'OP-02', 2);
      await enters(scene.room, 'OP-03', 4);
      scene.program.tell({ news: 'second' });
      await press(scene.program, 'l "b-1" enter "to"');
    },
  },
  'helping-nobody': {
    keys: flashed,
    after: async (scene) => {
      await enters(scene.room, 'OP-02', 1);
      await flash(scene);
      await press(scene.program, '"ines" enter');
    },
  },
  'fresh-bobbin': { takes: 4.485, keys: flashed, after: sewing('"3.1" enter "2"') },
  'bobbin-fitted': { takes: 4.485, keys: flashed, after: sewing('enter') },
  'another-bobbin': { takes: 4.485, keys: flashed, after: sewing('enter w') },
  locked: {
    as: { lockAfter: 30 },
    keys: flashed,
    after: async (scene) => {
      await sewing('enter "312" enter "31"')(scene);
      await nobody(scene);
      await press(scene.program, '"to"');
    },
  },
  'locked-clock': {
    as: { lockAfter: 10 },
    keys: `${flashed} enter`,
    after: (scene) => nobody(scene),
  },
  'form-strike': { keys: `${kit} b x "wrong roll, "` },
  'look-back': { keys: `${kit} "1819" enter b down x "misread" enter b down` },
  'keys-station': { keys: '"ines" enter ?' },
  'keys-point': { keys: flashed, after: sewing('enter ?') },
  changes: {
    keys: `"ines" enter "b-1" enter "22" enter esc l esc`,
    after: async ({ room, program }) => {
      const { changedLining } = await import('./lining.ts');
      await room.release(changedLining);
      const made = await room.ledger.attempt(null, newTicket);
      if (!made.ok) throw new Error(made.error.message);
      await press(program, '"ines" enter "b-2" enter');
    },
  },
  desk: { as: deskOf(), keys: '"vera" enter down' },
  'desk-draft': { as: deskOf(), keys: '"vera" enter down down enter' },
  'desk-reading': { as: deskOf(), keys: '"vera" enter down down v' },
  'desk-changes': { as: deskOf(), keys: '"vera" enter down down c' },
  'desk-draft-keys': { as: deskOf(), keys: '"vera" enter down down enter ?' },
  'desk-look': { as: deskOf(), keys: '"vera" enter enter' },
  'desk-sewer': { as: deskOf(), keys: '"ines" enter' },
  'desk-hold': {
    as: deskOf(),
    keys: '"vera" enter',
    after: async ({ room, program }) => {
      const sewer = await room.program();
      await press(sewer, `${kit} h "one strap short" enter l`);
      program.tell({ news: 'second' });
      await program.settled();
    },
  },
  'taken-by-another': {
    keys: kit,
    after: async ({ room, program }) => {
      const other = await room.program();
      await press(other, `${asOther} "b-1" enter`);
      await press(program, '"1819" enter');
      program.tell({ news: 'second' });
      await program.settled();
    },
  },
  finish: {
    keys: flashed,
    after: async (scene) => {
      await sewing(`${upToHoldPoint} "vera" enter`)(scene);
      await secondSet(scene);
    },
  },
  finished: {
    keys: flashed,
    after: async (scene) => {
      await sewing('enter "316" enter "312" enter "311" enter "312.5" enter "28" enter enter "vera" enter')(scene);
      await secondSet(scene);
      await press(scene.program, '"2" enter');
    },
  },
  rehearsal: { as: { purpose: 'rehearse' }, keys: flashed, after: sewing('enter "312"') },
  'rehearsal-caution': { as: { purpose: 'rehearse' }, keys: flashed, after: flash },
  'big-tick': { as: { letters: 'big' }, keys: flashed, after: sewing('') },
  'big-reading': { as: { letters: 'big' }, keys: flashed, after: sewing('enter "312" enter "31"') },
  'big-outside': { as: { letters: 'big' }, keys: flashed, after: sewing('enter "316" enter') },
  'big-choice': { as: { letters: 'big' }, keys: '"ines" enter "b-1" enter "22" enter "R-318" enter 2' },
  'big-caution': { as: { letters: 'big' }, keys: flashed, after: flash },
};

/** Half an hour without a key. */
async function nobody({ room, program }: Scene): Promise<void> {
  room.clock.pass(30 * 60);
  program.tell({ news: 'second' });
  await program.settled();
}

async function enters({ ledger }: Workroom, who: string, level: number): Promise<void> {
  const skill = { do: 'set skill', hand: 'V-01', who, skill: 'sleeve to line', level } as unknown as Command;
  const made = await ledger.attempt(null, skill);
  if (!made.ok) throw new Error(made.error.message);
}

async function secondSet(scene: Scene): Promise<void> {
  await press(scene.program, '"1819" enter "1817" enter enter');
  await flash(scene);
  await press(scene.program, `${upToHoldPoint} "vera" enter`);
}

const newTicket = {
  do: 'make ticket',
  hand: 'room',
  ticket: 'B-2',
  procedure: 'T-1',
  sets: 1,
  rolls: [],
} as unknown as Parameters<Workroom['ledger']['attempt']>[1];

/** A room for the story. */
export const roomFor = (story: Story, markdown: string): Promise<Workroom> =>
  workroom(markdown, {
    ...(story.rule ? { pin: story.rule } : {}),
    ...(story.takes === undefined ? {} : { thread: threadOf(story.takes) }),
  });

/** The program at the end of the story. */
export async function play(story: Story, room: Workroom, speaks: Partial<App> = {}): Promise<AppStore> {
  const program = await room.program({ ...story.as, ...speaks });
  await press(program, story.keys);
  await story.after?.({ room, program });
  return program;
}

/** Some of the stories again for somebody who reads another language. */
export const foreign: readonly string[] = [
  'station',
  'count-outside',
  'choice',
  'caution',
  'hold',
  'keys-point',
  'finish',
  'locked',
];
