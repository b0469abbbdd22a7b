import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { TicketId } from '../../../src/base/brand.ts';
import { label } from '../../../src/reports/paper/label.ts';
import { sheet } from '../../../src/reports/paper/sheet.ts';
import type { PaperSize } from '../../../src/reports/paper/sheet-matter.ts';
import { terminalQr } from '../../../src/reports/terminal-qr.ts';
import { open } from '../../bundle/deeds.ts';
import { given } from '../../bundle/story.ts';
import { browse, missingTools, type PrintedPage, printed, scanned } from './browser.ts';
import { english, forTicket, matterOf, onTicket, written } from './matter.ts';

/** Where changes are tried everything has to be there; elsewhere whoever has no browser goes without. */
const missing = missingTools();
if (missing.length > 0 && process.env.TOOLS === 'required') throw new Error(`this test needs ${missing.join(', ')}`);
if (missing.length > 0) console.warn(`Paper is not looked at: this machine has no ${missing.join(', ')}.`);

const procedures = ['LIN-2207', 'CUS-0412', 'HOD-0931', 'CUT-0100'];
const room = new URL('../../../', import.meta.url);
const demo = (name: string) => {
  const procedure = written(readFileSync(new URL(`procedures/${name}.md`, room), 'utf8'));
  const addresses = procedure.steps.flatMap(({ pictures }) => pictures.map(({ address }) => address));
  const pictures = new Map(
    addresses.map((address) => [address, readFileSync(new URL(address, new URL('procedures/x', room)))]),
  );
  return { procedure, pictures };
};

const POINTS = { A4: [595, 842], Letter: [612, 792] } as const;
const MARGIN = 11 * (72 / 25.4) - 1;

/** Every page is of this size, says whose it is and which of how many, and nothing runs into its margins. */
function expectWhole(pages: readonly PrintedPage[], paper: PaperSize, says: readonly string[]): void {
  // A browser shrinks pages that are too wide: then the heading of 20 pt, some 23 points high with its line, would be smaller.
  expect(Math.max(...(pages[0]?.words ?? []).map(({ top, bottom }) => bottom - top))).toBeGreaterThan(22.5);
  for (const [at, { width, height, words, text }] of pages.entries()) {
    expect([Math.round(width), Math.round(height)]).toEqual(POINTS[paper]);
    for (const said of [...says, `page ${at + 1} of ${pages.length}`]) expect(text).toContain(said);
    const out = words.filter(
      ({ left, right, top, bottom }) =>
        left < MARGIN || top < MARGIN - 4 || right > width - MARGIN || bottom > height - 10,
    );
    expect(out).toEqual([]);
  }
}

describe.skipIf(missing.length > 0)('in a real browser', () => {
  test.each(procedures.flatMap((name) => (['A4', 'Letter'] as const).map((paper) => [name, paper] as const)))(
    '%s on %s: every page is whole, and every caution and every point stands on one page',
    (name, paper) => {
      const { procedure, pictures } = demo(name);
      printed(sheet(matterOf(procedure, { pictures, paper })), (pages) => {
        expectWhole(pages, paper, [name, 'revision B', 'ab12ab12ab12…']);
        expect(pages.length).toBeLessThan(25);
        const texts = pages.map(({ text }) => plain(text));
        for (const { title, points, cautions } of procedure.steps)
          for (const said of [title, ...points.map(({ text }) => text), ...cautions.map(({ text }) => text)])
            expect([said, texts.some((text) => text.includes(plain(said)))]).toEqual([said, true]);
      });
    },
  );

  test('a ticket’s sheet can be scanned on every page, by both codes, and they say its name and nothing else', () => {
    const { procedure, pictures } = demo('LIN-2207');
    const { world } = given(procedure, open);
    printed(sheet(matterOf(procedure, { pictures, ...forTicket(world, 1) })), (pages) => {
      expectWhole(pages, 'A4', ['B-1041', 'COPY 1', 'LIN-2207', 'revision B', 'ab12ab12ab12…']);
      for (const page of [pages[0], pages[5], pages.at(-1)])
        expect(page?.codes()).toEqual(['CODE-128:B-1041', 'QR-Code:B-1041']);
    });
  });

  test.each([
    ['B-1041', 'Cabin-top lining, batten sleeves', ['R-318', 'R-322'], ['CODE-128:B-1041', 'QR-Code:B-1041']],
    [
      'ABCDEFGHIJ-KLMNOPQRST.UVWXYZ_2026-11-25x',
      `${'Unpronounceable'.repeat(12)} and a title of many words `.repeat(3),
      Array.from({ length: 12 }, (_, n) => `${'W'.repeat(70)}-${n}`),
      ['QR-Code:ABCDEFGHIJ-KLMNOPQRST.UVWXYZ_2026-11-25x'],
    ],
    [
      'LINING-for-boat-7-of-2026-11x',
      'Lining',
      ['R-318'],
      ['CODE-128:LINING-for-boat-7-of-2026-11x', 'QR-Code:LINING-for-boat-7-of-2026-11x'],
    ],
    ['Б-1041', 'Подволок', [], ['QR-Code:Б-1041']],
  ])('the label of %s is one label, holds all that it says, and can be scanned', (name, title, rolls, codes) => {
    const { procedure } = demo('LIN-2207');
    const { bundle } = onTicket(given(procedure).world);
    const ticket = { copy: 12, bundle: { ...bundle, ticket: name as TicketId, rolls } };
    printed(label(english, { ...procedure, title }, 'AA', ticket), (pages) => {
      const [page] = pages;
      expect(pages).toHaveLength(1);
      expect([page?.width, page?.height].map((points) => Math.round(((points ?? 0) * 25.4) / 72))).toEqual([100, 62]);
      for (const said of ['LIN-2207', 'COPY 12', 'revision AA', '22 pieces', '2 left, 2 right', '25 Nov 2026', 'Rolls'])
        expect(page?.text).toContain(said);
      const shown = page?.words.filter(({ bottom, right }) => bottom <= page.height && right <= page.width) ?? [];
      expect(shown.map(({ text }) => text).join(' ')).toContain('2 sets');
      expect(page?.codes()).toEqual(codes);
    });
  });

  test('the code on a terminal can be scanned', () => {
    const folder = mkdtempSync(join(tmpdir(), 'walkfoot-qr-'));
    try {
      const { lines, columns } = terminalQr('B-1041');
      const rows = lines.flatMap((line) => [
        [...line].map((half) => !'█▀'.includes(half)),
        [...line].map((half) => !'█▄'.includes(half)),
      ]);
      const SCALE = 6;
      const pixels = rows.flatMap((row) =>
        Array.from({ length: SCALE }, () => row.map((dark) => (dark ? '1 ' : '0 ').repeat(SCALE)).join('')),
      );
      const file = join(folder, 'code.pbm');
      writeFileSync(file, `P1\n${columns * SCALE} ${rows.length * SCALE}\n${pixels.join('\n')}\n`);
      expect(scanned(file)).toEqual(['QR-Code:B-1041']);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  test('nothing is fetched and nothing runs, whatever a text or a picture asks for', async () => {
    const asked: string[] = [];
    const server = createServer((request, response) => {
      asked.push(request.url ?? '');
      response.end('x');
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const address = server.address();
    const at = `http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}`;
    const folder = mkdtempSync(join(tmpdir(), 'walkfoot-evil-'));
    try {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" onload="fetch('${at}/onload')"><script>fetch('${at}/script')</script><image href="${at}/image" width="9" height="9"/><style>@import '${at}/import'; rect { fill: url(${at}/fill#x) }</style><rect id="A" width="9" height="9"/><foreignObject width="9" height="9"><iframe xmlns="http://www.w3.org/1999/xhtml" src="${at}/frame"/></foreignObject></svg>`;
      const procedure = written(
        `---\nprocedure: EVIL\ntitle: "</style><link rel=stylesheet href=${at}/title>"\n---\n\n![x](${at}/above)\n\n<img src="${at}/html">\n\n## Sew\n\n![Panel](../media/a.svg#A)\n\n- [ ] Lies <script src="${at}/point"></script>\n`,
      );
      const pictures = new Map([['../media/a.svg', new TextEncoder().encode(svg)]]);
      const file = join(folder, 'evil.html');
      writeFileSync(file, sheet(matterOf(procedure, { pictures })));
      const dom = browse(folder, ['--dump-dom', '--virtual-time-budget=3000', `file://${file}`]);
      expect(dom).toContain('Lies &lt;script src=');
      expect(dom).not.toMatch(/<(?:script|iframe|link|object|embed)/);
      expect(asked).toEqual([]);
    } finally {
      server.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

/** Words without what stands beside a caution, at the height of any of its lines. */
const plain = (words: string): string =>
  words
    .replace(/\b(?:DANGER|WARNING|CAUTION|NOTICE|read)\b/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
