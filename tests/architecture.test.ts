import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../src');

/** Which folders a folder may import from, beside itself. */
const arrows: Readonly<Record<string, readonly string[]>> = {
  base: [],
  words: ['base'],
  measure: ['base'],
  drawing: ['measure', 'base'],
  picture: ['drawing', 'raster (types)', 'measure', 'base'],
  raster: ['base'],
  procedure: ['drawing', 'measure', 'base'],
  thread: ['drawing', 'procedure', 'measure', 'base'],
  bundle: ['procedure', 'measure', 'base'],
  ledger: ['base'],
  app: ['words', 'bundle', 'procedure', 'picture', 'ledger', 'measure', 'base'],
  keys: ['app (types)', 'words (types)', 'base'],
  terminal: ['raster (types)', 'keys', 'base'],
  widgets: ['keys', 'base'],
  screens: [
    'words (types)',
    'app',
    'keys',
    'widgets',
    'terminal',
    'bundle',
    'procedure',
    'picture',
    'ledger',
    'measure',
    'base',
  ],
  reports: ['words', 'app', 'thread', 'bundle', 'procedure', 'ledger', 'measure', 'base'],
  storage: ['ledger', 'bundle', 'thread', 'procedure', 'base'],
  commands: [
    'words',
    'app',
    'thread',
    'bundle',
    'drawing',
    'procedure',
    'ledger',
    'measure',
    'base',
    'keys',
    'terminal',
    'widgets',
    'screens',
    'reports',
    'storage',
    'picture',
    'raster',
  ],
  'command-line': ['commands', 'base'],
};

const pure = [
  'base',
  'measure',
  'drawing',
  'picture',
  'thread',
  'procedure',
  'bundle',
  'ledger',
  'app',
  'keys',
  'words',
];

describe('who may import whom', () => {
  test.each(sources())('%s', (file) => {
    const room = folderOf(file);
    if (room === '.') return;
    const wrong = importsOf(file).flatMap(({ from, typeOnly }) => {
      if (!from.startsWith('.')) return [];
      const target = folderOf(relative(root, resolve(root, dirname(file), from)));
      const allowed = arrows[room];
      expect(allowed, `${room} is a folder the house plan does not know`).toBeDefined();
      const fine = target === room || allowed?.includes(target) || (typeOnly && allowed?.includes(`${target} (types)`));
      return fine ? [] : [from];
    });
    expect(wrong).toEqual([]);
  });
});

describe('pure folders touch no screen, disk, network or clock', () => {
  test.each(sources().filter((file) => pure.includes(folderOf(file))))('%s', (file) => {
    const outside = importsOf(file).filter(({ from }) => !from.startsWith('.') && !WITHOUT_A_WORLD.test(from));
    expect(outside).toEqual([]);
    expect(code(file)).not.toMatch(
      /\bDate\.now\b|\bnew Date\s*(\(\s*\)|;)|\bMath\.random\b|\bprocess\.|\bsetTimeout\b|\bsetInterval\b|\bperformance\.|\bfetch\(/,
    );
  });
});

/** Packages that only work on what they are given. */
const WITHOUT_A_WORLD =
  /^(node:(?:crypto|util)|zod\/mini|canonicalize|fraction\.js|get-east-asian-width|fastest-levenshtein|yaml|commonmark|mdast|@rgrove\/parse-xml|svg-pathdata)$/;

test('only main.ts ends the process', () => {
  const ends = sources().filter((file) => /process\.(exit\(|exitCode\s*=)/.test(code(file)));
  expect(ends).toEqual(['main.ts']);
});

test('only storage, and the commands that read what they are given, touch the disk', () => {
  const touch = sources().filter((file) => importsOf(file).some(({ from }) => /^node:(fs|sqlite)/.test(from)));
  expect(touch.filter((file) => folderOf(file) !== 'storage' && folderOf(file) !== 'commands')).toEqual([]);
});

test('only terminal and the commands talk to the terminal', () => {
  const talk = sources().filter((file) => /setRawMode|\\x1b\[\?|process\.(stdin|stdout)/.test(code(file)));
  expect(talk.filter((file) => folderOf(file) !== 'terminal' && file !== 'main.ts')).toEqual([]);
});

test('no file is much over 300 lines', () => {
  // A catalogue is one list, of as many lines as there are messages.
  const code = sources().filter((file) => !file.startsWith('words/'));
  const long = code.filter((file) => readFileSync(join(root, file), 'utf8').split('\n').length > 320);
  expect(long).toEqual([]);
});

function sources(): readonly string[] {
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .sort();
}

function folderOf(file: string): string {
  return file.includes('/') ? (file.split('/')[0] ?? '.') : '.';
}

/** The code without comments: a comment may name what the code must not do. */
function code(file: string): string {
  return readFileSync(join(root, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/.*$/gm, '');
}

function importsOf(file: string): readonly { readonly from: string; readonly typeOnly: boolean }[] {
  const found = code(file).matchAll(
    /(?:import|export)\s+(type\s+)?(?:[^'";]*?\sfrom\s+)?'([^']+)'|import\('([^']+)'\)/g,
  );
  return [...found].map(([, type, from, lazy]) => ({ from: from ?? lazy ?? '', typeOnly: type !== undefined }));
}
