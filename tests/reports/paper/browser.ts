import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A word on a printed page and where it stands, in points from the upper left corner. */
interface Word {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PrintedPage {
  /** In points of 1/72 inch. */
  readonly width: number;
  readonly height: number;
  readonly words: readonly Word[];
  /** Its words in their order, spaces drawn together. */
  readonly text: string;
  /** What an independent reader makes of the codes on it: `QR-Code:B-1041`. */
  codes(): readonly string[];
}

const TOOLS = [
  ['chromium', '--version'],
  ['pdftotext', '-v'],
  ['pdftoppm', '-v'],
  ['zbarimg', '--version'],
] as const;

/** Which of the programs that print, look and scan this machine does not have. */
export const missingTools = (): readonly string[] =>
  TOOLS.filter(([tool, ask]) => spawnSync(tool, [ask]).error).map(([tool]) => tool);

/** Prints a page with a real browser, and looks at what came out. */
export function printed<T>(html: string, look: (pages: readonly PrintedPage[]) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'walkfoot-paper-'));
  try {
    const file = join(folder, 'page.html');
    const pdf = join(folder, 'page.pdf');
    writeFileSync(file, html);
    browse(folder, [`--print-to-pdf=${pdf}`, '--no-pdf-header-footer', `file://${file}`]);
    const boxes = join(folder, 'boxes.xml');
    execFileSync('pdftotext', ['-bbox', pdf, boxes]);
    const pages = readFileSync(boxes, 'utf8').split('<page ').slice(1);
    return look(pages.map((page, at) => pageOf(page, () => codesOn(pdf, at + 1))));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Runs the browser without a screen; as root it has no sandbox to offer. */
export function browse(folder: string, args: readonly string[]): string {
  const flags = [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--no-first-run',
    `--user-data-dir=${join(folder, 'profile')}`,
  ];
  return execFileSync('chromium', [...flags, ...args], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
}

/** What a scanner reads in a picture file. */
export const scanned = (picture: string): readonly string[] =>
  execFileSync('zbarimg', ['-q', picture], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })
    .trim()
    .split('\n')
    .sort();

function codesOn(pdf: string, page: number): readonly string[] {
  const number = String(page);
  execFileSync('pdftoppm', ['-r', '300', '-png', '-singlefile', '-f', number, '-l', number, pdf, `${pdf}-${number}`]);
  return scanned(`${pdf}-${number}.png`);
}

function pageOf(xml: string, codes: () => readonly string[]): PrintedPage {
  const number = (text: string, name: string): number => Number(new RegExp(`${name}="([\\d.]+)"`).exec(text)?.[1]);
  const words = [...xml.matchAll(/<word ([^>]*)>([^<]*)<\/word>/g)].map(([, box = '', text = '']) => ({
    text: text.replace(/&(lt|gt|amp|quot|apos|#39);/g, (_, name: string) => NAMES[name] ?? ''),
    left: number(box, 'xMin'),
    top: number(box, 'yMin'),
    right: number(box, 'xMax'),
    bottom: number(box, 'yMax'),
  }));
  const text = words.map((word) => word.text).join(' ');
  return { width: number(xml, 'width'), height: number(xml, 'height'), words, text, codes };
}

const NAMES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'", '#39': "'" };
