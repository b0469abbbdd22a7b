import { spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { practiceRoom, program, quietEnv } from '../playthrough/lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

/** Runs the program on a file of the room; `code` is null when it seemed to take for ever. */
function walkfoot(...args: readonly string[]) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args], {
    cwd: room.folder,
    env: quietEnv(),
    encoding: 'utf8',
    // Vera's PIN, for whoever asks.
    input: '7305\n',
    timeout: 20_000,
    maxBuffer: 64_000_000,
  });
  return { code: status, out: stdout, err: stderr, all: stdout + stderr };
}

const headed = (body: string, front = ''): string =>
  `---\nprocedure: HUGE\ntitle: Huge\nauthor: Ines\n${front}---\n\n## Sew\n\n${body}\n`;
const bomb = [...'bcdefghij'].map(
  (name, at) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[at]}`).join(', ')}]`,
);
const commands = [['proofread'], ['outline'], ['rehearse'], ['release', '--hand', 'Vera']] as const;

test.each([
  ['of 10 MB', () => headed('- [ ] Sleeves lie flat\n'.repeat(450_000)), 2, /is longer than 2 MB: split it/],
  ['of 80,000 points', () => headed('- [ ] Sleeves lie flat\n'.repeat(80_000)), 1, /more than 5000 lines/],
  ['with a list 100,000 deep on one line', () => headed(`${'- '.repeat(100_000)}x`), 1, /nested too deep/],
  ['with a quote 100,000 deep', () => headed(`${'>'.repeat(100_000)}x`), 1, /nested too deep/],
  [
    'with a list that goes deeper line by line',
    () => headed(Array.from({ length: 1_300 }, (_, depth) => `${'  '.repeat(depth)}- x`).join('\n')),
    1,
    /nested too deep/,
  ],
  ['with a line of 1 MB', () => headed(`- [ ] ${'a'.repeat(1_000_000)}`), 1, /more than 20000 characters/],
  [
    'with a line of 1 MB at the top',
    () => headed('- [ ] A', `kit: ${'['.repeat(1_000_000)}\n`),
    1,
    /more than 20000 characters/,
  ],
  [
    'with aliases of aliases at the top',
    () => headed('- [ ] A', `a: &a [x, x, x, x, x, x, x, x, x]\n${bomb.join('\n')}\n`),
    1,
    /aliases \(\*\) are not read/,
  ],
  ['with 4,900 points that are none', () => headed('- [x] Point [ ] ____ zz\n'.repeat(4_900)), 1, /ticked already/],
] as const)('a procedure %s is answered, whatever is asked', (_, text, code, words) => {
  writeFileSync(join(room.folder, 'procedures', 'huge.md'), text());
  for (const [command, ...rest] of commands) {
    const ran = walkfoot(command, 'procedures/huge.md', ...rest);
    expect(ran.all, command).toMatch(words);
    expect(ran.code, command).toBe(code);
  }
});

test('4,900 points of one step are read, played and released', () => {
  const points = Array.from({ length: 4_900 }, (_, place) => `- [ ] Width ${place} ____ mm (12)`).join('\n');
  writeFileSync(join(room.folder, 'procedures', 'huge.md'), headed(points));
  for (const [command, ...rest] of commands) {
    const ran = walkfoot(command, 'procedures/huge.md', ...rest);
    expect([command, ran.code]).toEqual([command, 0]);
  }
});

test('a file to be played that leads out of the room, or is none, is answered', () => {
  const inRoom = (name: string): string => join(room.folder, 'procedures', name);
  symlinkSync('/etc/hostname', inRoom('out.md'));
  symlinkSync('/dev/zero', inRoom('zero.md'));
  symlinkSync('loop.md', inRoom('loop.md'));
  mkdirSync(inRoom('folder.md'));
  spawnSync('mkfifo', [inRoom('pipe.md')]);
  for (const name of ['out.md', 'zero.md', 'loop.md', 'folder.md', 'pipe.md'])
    for (const [command, ...rest] of commands) {
      const { code, out, err } = walkfoot(command, `procedures/${name}`, ...rest);
      expect([name, command, code, out]).toEqual([name, command, 2, '']);
      expect(err).toMatch(/^walkfoot: \S[^\n]*: [^\n]*\.\n$/);
    }
});

/** What somebody might draw to harm a program that shows it, or a browser that prints it. */
const drawings: Readonly<Record<string, string>> = {
  script: '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>',
  outside:
    '<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///etc/hostname">]><svg><image href="file:///etc/hostname"/><text>&e;</text></svg>',
  entities: `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${[...'bcdefghij'].map((name, at) => `<!ENTITY ${name} "${`&${'abcdefghi'[at]};`.repeat(10)}">`).join('')}]><svg><text>&j;</text></svg>`,
  vast: '<svg width="1000000000" height="1000000000"><rect width="100%" height="100%"/></svg>',
  none: '\x1b]0;title\x07\x1b[2J',
};

test('a drawing with scripts, outside references or a billion points is a finding each, and released by nobody', () => {
  for (const [name, drawing] of Object.entries(drawings))
    writeFileSync(join(room.folder, 'media', `${name}.svg`), drawing);
  const pictures = Object.keys(drawings).map((name) => `![A ${name}](../media/${name}.svg#D1)`);
  writeFileSync(
    join(room.folder, 'procedures', 'huge.md'),
    headed(`${pictures.join('\n\n')}\n\n- [ ] Looks right`).replace('HUGE', 'DRAWN'),
  );
  for (const [command, ...rest] of commands) {
    const ran = walkfoot(command, 'procedures/huge.md', ...rest);
    // A rehearsal shows the words of the pictures and looks for none.
    expect([command, ran.code]).toEqual([command, command === 'rehearse' ? 0 : 1]);
    for (const name of command === 'rehearse' ? [] : Object.keys(drawings))
      expect(ran.all).toMatch(new RegExp(`drawing-fault: .*media/${name}\\.svg`));
    expect(ran.all).not.toMatch(/aaaaaaaaaa|root:|[\x00-\x09\x0b-\x1f\x7f-\x9f]/);
  }
  expect(walkfoot('who', '--json').all).not.toContain('DRAWN');
  expect(walkfoot('verify')).toMatchObject({ code: 0, err: '' });
});
