import { expect, test } from 'vitest';
import { carryOn, REHEARSAL, REHEARSING, rehearsalClock, rehearsalOf } from '../../src/app/rehearsal.ts';
import type { Digest } from '../../src/base/brand.ts';
import { allChecks } from '../../src/bundle/bundle.ts';
import { next } from '../../src/bundle/next.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

const draft = `---
procedure: T-1
title: Lining
sets: 2
---

## Count the kit

- For the whole bundle

- [ ] Pieces ____ pcs (22)

## Glue the edge

> **WARNING** Solvent. The vapour harms you. Open the window.

- [ ] Flash-off ____ min (min 10)

## Sew the sleeve

- [ ] Edges on the line
- [ ] Line to edge ____ ____ mm (312 ±1.5)
- [ ] **Hold point** looked over
`;

const clock = () => rehearsalClock(() => ({ ms: Date.parse('2026-11-25T09:00:00Z'), offset: 0 }));

async function rehearsing(text: string, time = clock()) {
  const { procedure, findings } = readProcedure(text, 'T-1.md');
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const bytes = new TextEncoder().encode(text);
  const ledger = await rehearsalOf(
    { name: 'procedures/T-1.md', digest: digestOf(bytes) as Digest, bytes },
    procedure,
    time.now,
  );
  const playing = async () => {
    const now = await ledger.playing(REHEARSAL);
    if (!now.ok) throw new Error(now.error.message);
    return now.value;
  };
  return {
    ledger,
    playing,
    time,
    answers: async () => allChecks((await playing()).bundle).map(({ point, value }) => `${point} ${value}`),
    where: async () => {
      const { bundle, procedure: now } = await playing();
      const wanted = next(now, ledger.room(), bundle, REHEARSING);
      return wanted.want === 'point'
        ? `${wanted.at.set} ${wanted.at.step.id} ${wanted.point.id} ${wanted.place}`
        : wanted.want;
    },
  };
}

/** The draft rehearsed up to its sleeve, where one place was measured. */
async function atTheSleeve() {
  const old = await rehearsing(draft.replace('min 10', 'min 0'));
  const at = { hand: REHEARSING, set: 1 } as const;
  const commands = [
    { do: 'open', hand: REHEARSING },
    { do: 'check', hand: REHEARSING, set: null, step: 'count-the-kit', point: 'pieces', place: 1, typed: '22' },
    { do: 'read caution', ...at, step: 'glue-the-edge', caution: 1 },
    { do: 'start clock', ...at, step: 'glue-the-edge', point: 'flash-off' },
    { do: 'check', ...at, step: 'glue-the-edge', point: 'flash-off', place: 1, typed: '' },
    { do: 'check', ...at, step: 'sew-the-sleeve', point: 'edges-on-the-line', place: 1, typed: '' },
    { do: 'check', ...at, step: 'sew-the-sleeve', point: 'line-to-edge', place: 1, typed: '312.5' },
  ];
  for (const command of commands)
    expect(await old.ledger.attempt(REHEARSAL, command as never)).toMatchObject({ ok: true });
  expect(await old.where()).toBe('1 sew-the-sleeve line-to-edge 2');
  return old;
}

test.each([
  ['the same text', [], '1 sew-the-sleeve line-to-edge 2', 'line-to-edge 312.5'],
  [
    'a point more in an earlier step',
    [['- [ ] Pieces', '- [ ] Label reads ____\n- [ ] Pieces']],
    '1 sew-the-sleeve line-to-edge 2',
    'line-to-edge 312.5',
  ],
  ['a limit that shuts the answer out', [['±1.5', '±0.1']], '1 sew-the-sleeve line-to-edge 1', 'line-to-edge 312.5'],
  [
    'the step called otherwise',
    [['## Sew the sleeve', '## Sew the front sleeve']],
    '1 sew-the-front-sleeve edges-on-the-line 1',
    'flash-off 10',
  ],
  [
    'a step more before it',
    [['## Sew', '## Wipe\n\n- [ ] Wiped\n\n## Sew']],
    '1 sew-the-sleeve line-to-edge 2',
    'wiped done',
  ],
  ['all but the first step gone', [[draft.slice(draft.indexOf('## Glue')), '']], 'finish', 'pieces 22'],
] as const)('a rehearsal goes on in a new text where it stood: %s', async (_, changes, where, answer) => {
  const old = await atTheSleeve();
  const text = changes.reduce((words, [from, to]) => words.replace(from, to), draft);
  const fresh = await rehearsing(text, old.time);
  await carryOn(old.ledger, fresh.ledger, old.time);
  expect(await fresh.where()).toBe(where);
  expect(await fresh.answers()).toContain(answer);
});

test('a hold does not lose the place', async () => {
  const old = await atTheSleeve();
  const held = { do: 'hold', hand: REHEARSING, set: 1, step: 'sew-the-sleeve', reason: 'wavy' };
  expect(await old.ledger.attempt(REHEARSAL, held as never)).toMatchObject({ ok: true });
  expect(await old.where()).toBe('settling');
  const fresh = await rehearsing(draft, old.time);
  await carryOn(old.ledger, fresh.ledger, old.time);
  expect(await fresh.where()).toBe('1 sew-the-sleeve line-to-edge 2');
});

test('the bobbin in the machine stays there when the text is another', async () => {
  const old = await atTheSleeve();
  const fit = { do: 'fit bobbin', hand: REHEARSING, wound: '12000' } as const;
  expect(await old.ledger.attempt(REHEARSAL, fit)).toMatchObject({ ok: true });
  const fresh = await rehearsing(draft, old.time);
  await carryOn(old.ledger, fresh.ledger, old.time);
  expect(fresh.ledger.room().bobbin).toBe('12000');
  expect(await fresh.where()).toBe('1 sew-the-sleeve line-to-edge 2');
});
