import { expect, test } from 'vitest';
import { label } from '../../../src/reports/paper/label.ts';
import { sheet } from '../../../src/reports/paper/sheet.ts';
import { concession, hold, open, scrap, setPin, settle } from '../../bundle/deeds.ts';
import { answered, given, upTo } from '../../bundle/story.ts';
import { olaf, vera, type World } from '../../bundle/world.ts';
import { english, forTicket, matterOf, onTicket, wordsOf, written } from './matter.ts';

const lining = written(
  `---
procedure: LIN-2207
title: Cabin-top lining
sets: 2
kit:
  A: front panel
  F-L: corner patch (left)
  F-R: corner patch (right)
  ST: strap × 2
---

Hung from four battens. *Straight sleeves.*

## Count the kit

- For the whole bundle
- Allowed time: 5 min

> **NOTICE** Folds. A fold stays. Roll the panel.

- [ ] Pieces ____ pcs (10)
- [ ] Roll ____
- [ ] Shade ____ (**match** / lighter)

## Sew the sleeves

- Seams: D1 D2, stitch 301 at 4.0 mm
- If out: unpick and sew again
- Cannot be undone
- Needs skill: sleeve to line

> **WARNING** Needle. It goes through your finger. Take your foot off.

- [ ] Lies flat
- [ ] Line \`a\` ____ ____ mm (312 ±1.5)
- [ ] Twice \`2 * b\` = ____ mm (max 60)
- [ ] Flash-off ____ min (min 10)
- [ ] **Hold point** sleeves looked over
`.replace('- [ ] Twice', '- [ ] Bore `b` ____ mm (27 +2/-0)\n- [ ] Twice'),
);

/** Olaf may stand by. */
const skilled = { hand: vera, do: 'set skill', who: olaf, skill: 'sleeve to line', level: 4 } as const;

const blank = wordsOf(sheet(matterOf(lining)));

test('every point has a place for its answer, in the way it is answered', () => {
  expect(blank).toContain('Pieces exactly 10 pcs');
  expect(blank).toContain('Line a 310.5 to 313.5 mm set 1 mm set 2 mm');
  expect(blank).toContain('Twice 2 × b = at most 60 mm');
  expect(blank).toContain('Flash-off at least 10 min set 1 from to = min set 2 from to = min');
  expect(blank).toContain('Shade match lighter');
  const page = sheet(matterOf(lining));
  expect(page).toContain('<b>match</b>');
  const line = page.slice(page.indexOf('>Line'), page.indexOf('>Bore'));
  expect(line.match(/class="blank"/g)).toHaveLength(4);
  expect(page.match(/class="line long"/g)).toHaveLength(1);
});

test('a hold point is signed by two, for each set, and the sheet by sewer and supervisor', () => {
  const pair = 'sewer, signature, time second person, signature, time';
  expect(blank).toContain(`Hold point: sleeves looked over set 1 ${pair} set 2 ${pair}`);
  expect(blank).toMatch(/When all points are done .* sewer, signature, time supervisor, signature, time $/);
});

test('a caution stands before the points, with the sign unless it is about material', () => {
  const page = sheet(matterOf(lining));
  const [, notice = '', warning = ''] = page.split('class="caution"');
  expect(notice.slice(0, notice.indexOf('</div>\n</div>'))).not.toContain('class="sign"');
  expect(warning.slice(0, 600)).toContain('class="sign"');
  expect(page.indexOf('It goes through your finger')).toBeLessThan(page.indexOf('Lies flat'));
});

test('who has read a caution is named, and whoever has not has a box to tick', () => {
  const { world } = given(lining, open, upTo('shade'));
  const page = wordsOf(sheet(matterOf(lining, forTicket(world))));
  expect(page).toContain('Roll the panel. read ✓ Ines Pieces');
  expect(page).toContain('Take your foot off. read Lies flat');
});

test('the facts of a step, the kit in a set and in the bundle, and how it is filled in', () => {
  for (const said of [
    'Allowed time: 5 min',
    'Cannot be undone',
    'Seams: D1 D2, stitch 301 at 4.0 mm',
    'If out: unpick and sew again',
    'Needs skill: sleeve to line; below level 3, who stands by:',
    'ST strap 2 4',
    'F-L corner patch (left) 1 2',
    '5 10',
    'it guards nothing',
    'set by set',
  ])
    expect(blank).toContain(said);
});

test('every page says whose it is; a form without a ticket has no code and is no copy', () => {
  expect(blank.trimStart()).toMatch(/^LIN-2207 Cabin-top lining revision B · text ab12ab12ab12… · blank form /);
  expect(blank).toContain('ab12'.repeat(16));
  expect(sheet(matterOf(lining))).not.toMatch(/class="(?:qr|bars)"|COPY|DRAFT/);
  const { text } = matterOf(lining);
  expect(wordsOf(sheet(matterOf(lining, { text: { ...text, release: null } })))).toContain('DRAFT, not released');
});

test('a ticket’s sheet carries its code, and which copy it is', () => {
  const { world } = given(lining);
  const first = sheet(matterOf(lining, forTicket(world)));
  const second = sheet(matterOf(lining, forTicket(world, 1)));
  expect(wordsOf(first)).toMatch(/^ ?B-1041 LIN-2207 · Cabin-top lining revision B/);
  expect(first).toContain('class="qr"');
  expect(first).toContain('class="bars"');
  expect(first).not.toContain('COPY');
  expect(wordsOf(second)).toContain('B-1041 COPY 1');
});

test('paper goes on where the bundle stands: what is done, by whom and when; what was out; what is let through', () => {
  const { world } = given(lining, skilled, open, upTo('bore-b', { set: 1 }), answered('26'));
  const page = wordsOf(sheet(matterOf(lining, forTicket(world))));
  expect(page).toMatch(/Pieces exactly 10 pcs ✓ 10 pcs done: Ines, 25 Nov 2026 08:\d\d/);
  expect(page).toMatch(/Line a 310\.5 to 313\.5 mm set 1 ✓ 312 mm 312 mm done: Ines, 25 Nov 2026 08:\d\d set 2 mm/);
  expect(page).toContain('Bore b 27 to 29 mm set 1 (before: 26 mm, under its limit) mm set 2 mm');
  const conceded = given(world, hold(), settle(concession('2030-01-01'))).world;
  const after = wordsOf(sheet(matterOf(lining, forTicket(conceded))));
  expect(after).toMatch(/Bore b 27 to 29 mm set 1 ✓ 26 mm done: Ines, .*, by concession set 2 mm/);
});

test('a step that is done asks no more who did it; a set that is scrapped asks nothing', () => {
  const counted = given(lining, skilled, open, upTo('lies-flat', { set: 1 })).world;
  const page = wordsOf(sheet(matterOf(lining, forTicket(counted))));
  expect(page.match(/done on, at/g)).toHaveLength(2);
  const one = given(counted, hold('bundle'), settle(scrap(1), olaf)).world;
  const left = wordsOf(sheet(matterOf(lining, forTicket(one))));
  expect(left).toContain('Line a 310.5 to 313.5 mm set 2 mm');
  expect(left).toContain('Sets in the bundle 2, scrapped: set 1');
  expect(left.match(/set 1/g)).toHaveLength(1);
});

test('a bundle on hold, and one on a revision that is out of use, says so before anything else', () => {
  const { world } = given(lining, open, hold('bundle'));
  expect(wordsOf(sheet(matterOf(lining, forTicket(world))))).toMatch(
    /^ ?B-1041 ON HOLD .* ON HOLD H-001 , Ines, 25 Nov 2026 08:\d\d: a hole Do not work on/,
  );
  const { text } = matterOf(lining);
  if (text.release === null) throw new Error('this one is released');
  const release = { ...text.release, withdrawn: { at: text.release.at, seq: 9 } };
  expect(wordsOf(sheet(matterOf(lining, { text: { ...text, release } })))).toMatch(/^ ?LIN-2207 WITHDRAWN /);
});

test('a label says what is in the bundle, on which revision, and which copy it is', () => {
  const { world } = given(lining);
  const said = wordsOf(label(english, lining, 'C', onTicket(world, 2)));
  expect(said.trim()).toBe(
    'B-1041 LIN-2207 revision C Cabin-top lining COPY 2 2 sets · 10 pieces (2 left, 2 right) · 25 Nov 2026 Rolls: R-318',
  );
  expect(label(english, lining, 'C', onTicket(world))).not.toContain('COPY');
});

test('a label has room for so many rolls, and says how many more there are', () => {
  const { bundle } = onTicket(given(lining).world);
  const rolls = Array.from({ length: 9 }, (_, n) => `ROLL-2026-0${n}`);
  const said = wordsOf(label(english, lining, 'C', { copy: 0, bundle: { ...bundle, rolls } }));
  expect(said).toContain('ROLL-2026-00, ROLL-2026-01, ROLL-2026-02, ROLL-2026-03 and 5 more');
});

test('a signature on paper says whose it is, when, and what it means', () => {
  const asking = (world: World): World => ({ ...world, rule: 'supervisors' });
  const signing = [asking, setPin(vera), setPin(olaf), skilled, open] as const;
  const held = [...signing, upTo('bore-b', { set: 1 }), answered('26'), hold(), settle(concession('2030-01-01'))];
  const { world } = given(lining, ...held, upTo('lies-flat', { set: 2 }));
  const page = wordsOf(sheet(matterOf(lining, forTicket(world))));
  expect(page).toContain('Revision B, released: Vera, 24 Nov 2026 09:00');
  expect(page).toMatch(/Was on hold H-001, concession: looked at it\. settled: Olaf with PIN, 25 Nov 2026 \d\d:\d\d/);
  expect(page).toMatch(/sleeves looked over set 1 ✓ Ines; witnessed: Olaf with PIN, 25 Nov 2026 \d\d:\d\d set 2/);
});
