import fc from 'fast-check';
import { expect, it } from 'vitest';
import { lockMinutes, readRoomFile, writeRoomFile } from '../../src/storage/settings.ts';
import { roomThread } from '../../src/storage/thread-settings.ts';

const read = (text: string) => {
  const result = readRoomFile(text);
  return result.ok ? result.value : result.error.message;
};

const usualThread = {
  bobbin: 'off',
  'thread waste': '15 %',
  'thread ratios': {
    301: expect.stringMatching(/^2\.5, needle 50 %, trade pages/),
    401: expect.stringMatching(/^5\.5, needle 25 %, trade pages/),
  },
};

it('reads name, station and settings', () => {
  expect(read('name: Upstairs, left\nstation: table-1\nsettings:\n  big: true\n  bell: false\n')).toEqual({
    name: 'Upstairs, left',
    station: 'table-1',
    settings: {
      big: true,
      bell: false,
      pin: 'supervisors',
      supervisors: 'several',
      language: 'en',
      'lock after': '30 min',
      ...usualThread,
    },
  });
});

it.each(['name: A\nstation: t\n', 'name: A\nstation: t\nsettings:\n', 'name: A\nstation: t\nsettings: {}\n'])(
  'takes the usual settings where %j names none',
  (text) => {
    expect(read(text)).toMatchObject({
      settings: {
        big: false,
        bell: true,
        pin: 'supervisors',
        supervisors: 'several',
        language: 'en',
        'lock after': '30 min',
      },
    });
  },
);

it.each([
  ['name: A\nstation: t\nsettings:\n  bel: true\n', 'line 4, has no use for "bel": you may mean `bell`.'],
  ['name: A\nstaton: t\n', 'at its end: write up to 40 letters, digits'],
  ['name: A\nstation: t\ncolour: red\n', 'line 3, has no use for "colour": it knows `name`, `station`, `settings`.'],
  ['name: A\nstation: t\nsettings:\n  big: yes\n', 'line 4: write true or false after `big:`.'],
  ['name: A\nstation: t\nsettings:\n  pin: all\n', 'line 4: write supervisors or everyone after `pin:`.'],
  [
    'name: A\nstation: t\nsettings:\n  lock after: 5\n',
    'line 4: write minutes, such as 30 min, or off after `lock after:`.',
  ],
  ['name: A\nstation: t\nsettings:\n  bobbin: 30\n', 'line 4: write the metres on a full one, such as 30 m, or off'],
  ['name: A\nstation: t\nsettings:\n  bobbin: 0.0 m\n', 'line 4: write the metres on a full one, such as 30 m, or off'],
  ['name: A\nstation: t\nsettings:\n  thread ratios:\n    301: 2.5\n', 'line 5: write a stitch type with its ratio'],
  [
    'name: A\nstation: t\nsettings:\n  thread ratios:\n    301: 0.0, needle 50 %, here\n',
    'line 5: write a stitch type with its ratio',
  ],
  ['name: A\nstation: two words\n', 'line 2: write up to 40 letters, digits'],
  ['name: A\nstation: t/../u\n', 'line 2: write up to 40 letters'],
  ['name: "A\\e[2J"\nstation: t\n', 'line 1: write the name of the room'],
  ['name: "A\\u202eB"\nstation: t\n', 'line 1: write the name of the room'],
  ['name: A\n', 'at its end: write up to'],
  ['name: A\nstati', 'line 2, cannot be read and may be half written: correct it'],
  ['name: "A\nstation: t\n', 'cannot be read and may be half written'],
  ['name: A\nname: B\nstation: t\n', 'line 2, cannot be read'],
  ['', 'is empty: write `name:` and `station:` into it.'],
  ['# nothing yet\n', 'is empty'],
  ['Upstairs', 'should hold `name:` and `station:`'],
  ['- name: A\n', 'should hold `name:` and `station:`'],
  ['name: &a A\nstation: *a\n', 'uses aliases'],
  ['\u0000', 'walkfoot.yaml'],
])('refuses %j in one sentence', (text, words) => {
  const message = read(text);
  expect(message).toContain(words);
  expect(message).toMatch(/^walkfoot\.yaml.*\.$/);
});

it.each([
  ['brackets', '['.repeat(60_000)],
  ['maps', '{a: '.repeat(15_000)],
  ['lists', '- '.repeat(30_000)],
  ['questions', '? '.repeat(30_000)],
])('refuses %s nested without end, at once and without running out of memory', (_, text) => {
  expect(read(`name: ${text}`)).toMatch(/^walkfoot\.yaml, line 1, cannot be read/);
});

it('refuses aliases of aliases without writing them out', () => {
  const bomb = [...'bcdefghij'].map((name, at) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[at]}`)}]`);
  expect(read(`a: &a [x]\n${bomb.join('\n')}\nname: A\nstation: t\n`)).toContain('uses aliases');
});

it.each([
  ['30 min', 30],
  ['5 min', 5],
  ['off', null],
])('a station locks after %s', (said, minutes) => {
  const room = readRoomFile(`name: A\nstation: t\nsettings:\n  lock after: ${said}\n`);
  expect(room.ok && lockMinutes(room.value.settings)).toBe(minutes);
});

it('reckons thread by what the room says, and by the usual where it says nothing', () => {
  const text =
    'name: A\nstation: t\nsettings:\n  bobbin: 30 m\n  thread ratios:\n    504: 14, needle 20 %, measured, on our machine\n';
  const room = readRoomFile(text);
  if (!room.ok) throw new Error(room.error.message);
  const { bobbin, waste, ratios } = roomThread(room.value.settings);
  expect([bobbin?.toString(), waste.toString()]).toEqual(['30000', '15']);
  expect(
    [...ratios].map(([stitch, { ratio, needleShare, source }]) => [stitch, `${ratio}`, `${needleShare}`, source]),
  ).toEqual([
    ['301', '2.5', '50', expect.stringContaining('trade pages')],
    ['401', '5.5', '25', expect.stringContaining('trade pages')],
    ['504', '14', '20', 'measured, on our machine'],
  ]);
});

it('never throws', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string({ unit: 'binary' }),
        fc.array(fc.constantFrom(...'ab:-&*\n "\'[]{}?|>#')).map((c) => c.join('')),
      ),
      (text) => {
        expect(read(text)).toBeDefined();
      },
    ),
    { numRuns: 500 },
  );
});

it('writes a file that it reads', () => {
  const text = writeRoomFile({ name: 'Room: "1" # left', station: 'table-1' });
  expect(text.ok && read(text.value)).toEqual({
    name: 'Room: "1" # left',
    station: 'table-1',
    settings: {
      big: false,
      bell: true,
      pin: 'supervisors',
      supervisors: 'several',
      language: 'en',
      'lock after': '30 min',
      ...usualThread,
    },
  });
  expect(writeRoomFile({ name: 'two\nlines', station: 'table-1' }).ok).toBe(false);
});
