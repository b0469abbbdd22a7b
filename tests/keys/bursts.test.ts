import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { afterBurst, burstDeadline, collect, type Hearing, initialBurst } from '../../src/keys/bursts.ts';
import type { Key } from '../../src/keys/key.ts';

const enter: Key = { key: 'enter', held: 'no' };
const tab: Key = { key: 'tab' };
const text = (letters: string): Key[] => [...letters].map((one) => ({ key: 'text', text: one }));
const scan = (letters: string): Key => ({ key: 'scan', text: letters });

/** Plays keys with the pause in front of each, then a long quiet. */
function heard(hearing: Hearing, played: readonly (readonly [pause: number, key: Key])[]): readonly Key[] {
  let state = initialBurst;
  let ms = 1000;
  const out: Key[] = [];
  for (const [pause, key] of played) {
    ms += pause;
    const [next, keys] = collect(state, key, ms, hearing);
    state = next;
    out.push(...keys);
  }
  return [...out, ...afterBurst(state, ms + 1000)[1]];
}

const paced = (pause: number, keys: readonly Key[]) => keys.map((key) => [pause, key] as const);

describe('while commands are heard', () => {
  test.each([0, 3, 24])('a ticket sent with %i ms between its characters is one scan', (pause) => {
    expect(heard('commands', paced(pause, [...text('B-1041'), enter]))).toEqual([scan('B-1041')]);
    expect(heard('commands', paced(pause, [...text('B-1041'), tab]))).toEqual([scan('B-1041')]);
  });

  test('two scans one behind the other are two', () => {
    const keys = [...text('AB12'), enter, ...text('CD34'), enter];
    expect(heard('commands', paced(0, keys))).toEqual([scan('AB12'), scan('CD34')]);
  });

  test.each([
    ['a person types', paced(25, [...text('AB12'), enter])],
    ['there are only two', paced(1, [...text('AB'), enter])],
    ['no end key follows', paced(1, text('AB12'))],
    ['the end key comes late', [...paced(1, text('AB12')), [25, enter] as const]],
    ['another key ends it', paced(1, [...text('AB12'), { key: 'up' }])],
    ['a paste comes between', paced(1, [...text('AB12'), { key: 'paste', text: 'x' }, enter])],
    ['one pause is long', [...paced(1, text('AB')), [25, { key: 'text', text: 'C' }] as const, [1, enter] as const]],
  ] as const)('every key comes out as it was when %s', (_, played) => {
    expect(heard('commands', played)).toEqual(played.map(([, key]) => key));
  });

  test('Enter with nothing held back passes at once', () => {
    expect(collect(initialBurst, enter, 0, 'commands')[1]).toEqual([enter]);
  });

  test('a text key waits exactly until its deadline', () => {
    const [state, out] = collect(initialBurst, { key: 'text', text: 'h' }, 100, 'commands');
    expect(out).toEqual([]);
    expect(burstDeadline(state)).toBe(125);
    expect(afterBurst(state, 124)).toEqual([state, []]);
    expect(afterBurst(state, 125)).toEqual([initialBurst, text('h')]);
  });
});

test('while a field is open every key passes at once, behind what was held back', () => {
  const [state] = collect(initialBurst, { key: 'text', text: 'n' }, 0, 'commands');
  expect(collect(state, { key: 'text', text: 'o' }, 1, 'text')[1]).toEqual(text('no'));
  expect(collect(initialBurst, { key: 'text', text: '3' }, 0, 'text')[1]).toEqual(text('3'));
});

test('the scan behind what a device sent into a field says what was one; a person’s enter is an enter', () => {
  expect(heard('text', paced(2, [...text('26.1'), enter]))).toEqual([...text('26.1'), scan('26.1')]);
  expect(
    heard('text', [[0, text('2')[0] as Key], ...paced(300, []), ...paced(300, text('7')), ...paced(300, [enter])]),
  ).toEqual([...text('27'), enter]);
  const begun = [
    [0, text('2')[0] as Key] as const,
    [900, text('3')[0] as Key] as const,
    ...paced(2, [...text('12'), enter]),
  ];
  expect(heard('text', begun)).toEqual([...text('2312'), scan('312')]);
});

describe('behind the end key of a field, which may close it', () => {
  test.each(['text', 'commands'] as const)('the second of two scans presses no keys, nor the third (%s)', (hearing) => {
    const field = paced(100, [...text('LUH7'), enter]);
    const behind = paced(0, [...text('HLU'), enter, ...text('ULH'), tab]);
    expect(heard(hearing, [...field, ...behind])).toEqual([...text('LUH7'), enter, scan('HLU'), scan('ULH')]);
  });

  test('what a person types there still comes out, as it was', () => {
    const played = [...paced(100, text('312')), ...paced(3, [enter, ...text('31'), enter])];
    expect(heard('text', played)).toEqual(played.map(([, key]) => key));
    expect(heard('text', [[0, enter] as const, ...paced(25, text('note'))])).toEqual([enter, ...text('note')]);
  });
});

test('a hundred thousand keys in a burst are held back and given out', () => {
  expect(heard('commands', paced(0, text('j'.repeat(100_000))))).toHaveLength(100_000);
});

test('nothing is lost and nothing changes places', () => {
  const key = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...text('abc')) },
    fc.constantFrom<Key>(enter, tab, { key: 'escape' }, { key: 'paste', text: 'pasted' }),
  );
  const played = fc.array(fc.tuple(fc.nat(40), key), { maxLength: 40 });
  const spell = (keys: readonly Key[]): string =>
    keys
      .map((one) => (one.key === 'text' || one.key === 'scan' ? one.text : one.key === 'tab' ? '\n' : one.key))
      .join('');
  fc.assert(
    fc.property(played, fc.constantFrom<Hearing>('text', 'commands'), (keys, hearing) => {
      const tabsAsEnters = (spelled: string): string => spelled.replaceAll('\n', 'enter');
      // Letters that went into a field are not sent again by the scan behind them.
      const out: Key[] = [];
      for (const one of heard(hearing, keys)) {
        const inTheField = one.key === 'scan' && hearing === 'text' && spell(out).endsWith(one.text);
        if (!inTheField) out.push(one);
        if (one.key === 'scan') out.push(enter);
      }
      expect(tabsAsEnters(spell(out))).toBe(tabsAsEnters(spell(keys.map(([, one]) => one))));
    }),
  );
});
