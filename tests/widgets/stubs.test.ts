import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { prose } from '../../src/widgets/prose.ts';
import { bundling } from '../../src/widgets/stubs/bundling.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'prose-'));
});
afterAll(() => rm(folder, { recursive: true }));

const everyConstruct = `# One :smile:

Two **three** *four* \`five\` ~~six~~ [seven](http://a.example/) ![eight](b.svg) <b>nine</b>

- ten
  1. eleven
- [x] twelve

> thirteen

| a | b |
|---|---|
| c | d |

\`\`\`js
const fourteen = 14;
\`\`\`

---
`;

test('the bundle leaves five libraries out and draws the same in a plain Node', async () => {
  const outfile = join(folder, 'prose.mjs');
  const { metafile } = await build({
    ...bundling,
    entryPoints: [fileURLToPath(new URL('../../src/widgets/prose.ts', import.meta.url))],
    outfile,
    metafile: true,
    minify: true,
  });
  const inside = Object.keys(metafile.inputs).join('\n');
  expect(inside).toContain('marked-terminal');
  expect(inside).not.toMatch(/highlight\.js|emojilib|cli-table3|supports-hyperlinks/);

  const script = `const { prose } = await import(${JSON.stringify(outfile)}); console.log(JSON.stringify(prose(${JSON.stringify(everyConstruct)}, 60)))`;
  const bundled = execFileSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' });
  expect(JSON.parse(bundled)).toEqual(prose(everyConstruct, 60));
});
