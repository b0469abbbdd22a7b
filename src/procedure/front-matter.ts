import { isAlias, isMap, isScalar, type Node, type ParsedNode, parseDocument, visit } from 'yaml';
import type { ProcedureId } from '../base/brand.ts';
import type { Problem } from '../base/collect-findings.ts';
import { hidesCharacters } from './hidden-characters.ts';
import { readKit } from './kit.ts';
import { nearest } from './nearest.ts';
import type { KitPiece, Procedure, ReadCautions } from './procedure.ts';

export interface FrontMatter {
  readonly id: ProcedureId;
  /** Empty when the front matter gives none. */
  readonly title: string;
  readonly author: string | null;
  readonly sets: number;
  readonly work: Procedure['work'];
  readonly readCautions: ReadCautions;
  readonly kit: readonly KitPiece[];
  readonly values: ReadonlyMap<string, string>;
  /** Rules of proofreading that the text silences, each with its reason. */
  readonly silenced: readonly Field[];
  /** Every key that is written at the top. */
  readonly keys: ReadonlySet<string>;
}

/** What stands in the front matter: `at` is the offset of a field's value, or of the front matter where it is missing. */
export interface Field {
  readonly key: string;
  readonly keyAt: number;
  readonly text: string;
  readonly at: number;
}

type Note = (problem: Problem) => void;

/** Reads the YAML between the two `---` lines. `start` is its offset in the file. */
export function readFrontMatter(yaml: string, start: number, note: Note): FrontMatter {
  const root = parse(yaml, start, note);
  const fields = new Map(fieldsOf(root, start).map((field) => [field.key, field]));
  for (const { key, keyAt } of fields.values()) noteUnknownKey(key, keyAt, note);
  const text = (key: Key): Field | undefined => {
    const field = fields.get(key);
    return field && field.text !== '' ? field : undefined;
  };
  return {
    id: readId(text('procedure'), start, note),
    title: text('title')?.text ?? '',
    author: readAuthor(text('author'), note),
    sets: readSets(text('sets'), note),
    work: readChoice(text('work'), ['set by set', 'step by step'], 'work', note),
    readCautions: readChoice(
      text('read cautions'),
      ['once a bundle', 'once a shift', 'every time'],
      'read cautions',
      note,
    ),
    kit: readKit(entries(root, 'kit', start, note), note),
    values: readValues(entries(root, 'values', start, note), note),
    silenced: entries(root, 'silenced', start, note).map((field) =>
      field.text === COMPOUND ? { ...field, text: '' } : field,
    ),
    keys: new Set(fields.keys()),
  };
}

/** What a file without front matter counts as. */
export const NO_FRONT_MATTER: FrontMatter = {
  id: '' as ProcedureId,
  title: '',
  author: null,
  sets: 1,
  work: 'set by set',
  readCautions: 'once a bundle',
  kit: [],
  values: new Map(),
  silenced: [],
  keys: new Set(),
};

const KEYS = ['procedure', 'title', 'author', 'sets', 'work', 'read cautions', 'kit', 'values', 'silenced'] as const;
type Key = (typeof KEYS)[number];

function parse(yaml: string, start: number, note: Note): ParsedNode | null {
  const unreadable = (at: number, found: string): null => {
    note({
      rule: 'front-matter-unreadable',
      at: start + at,
      message: 'The lines between the two --- at the top cannot be read from here on.',
      found,
      mend: 'Write key: value on each line, and put a value that holds a colon or a # in "quotes".',
    });
    return null;
  };
  let document: ReturnType<typeof parseDocument>;
  try {
    document = parseDocument(yaml, { prettyErrors: false, keepSourceTokens: false });
  } catch (error) {
    // The library climbs down nested brackets by recursion; only a hostile file is deeper than the stack.
    if (error instanceof RangeError) return unreadable(0, yaml.slice(0, 60));
    throw error;
  }
  const [problem] = [...document.errors, ...document.warnings];
  if (problem) {
    const at = Math.min(problem.pos[0], yaml.length);
    return unreadable(at, yaml.slice(at).split('\n')[0] || (yaml.slice(0, at).trim().split('\n').at(-1) ?? ''));
  }
  let alias: Node | undefined;
  visit(document, {
    Node: (_, node) => {
      if (!isAlias(node) && !('anchor' in node && node.anchor)) return undefined;
      alias = node;
      return visit.BREAK;
    },
  });
  if (alias) {
    const value = alias.range?.[0] ?? 0;
    const at = 'anchor' in alias && alias.anchor ? Math.max(0, yaml.lastIndexOf(`&${alias.anchor}`, value)) : value;
    note({
      rule: 'front-matter-alias',
      at: start + at,
      message: 'Anchors (&) and aliases (*) are not read at the top of a procedure.',
      found: yaml.slice(at, alias.range?.[1]),
      mend: 'Write the value itself, in "quotes" if it begins with & or *.',
    });
    return null;
  }
  noteEscapes(document, yaml, start, note);
  if (document.contents === null || isMap(document.contents)) return document.contents as ParsedNode | null;
  return unreadable(0, yaml.split('\n')[0] ?? '');
}

/** In "quotes" YAML has escapes for characters that cannot be seen, and for halves of a pair that nothing can be signed with. */
function noteEscapes(document: ReturnType<typeof parseDocument>, yaml: string, start: number, note: Note): void {
  visit(document, {
    Scalar: (_, { value, range }) => {
      const at = range?.[0] ?? 0;
      const found = yaml.slice(at, range?.[1]);
      if (typeof value !== 'string' || !hidesCharacters(value) || hidesCharacters(found)) return;
      note({
        rule: 'hidden-character',
        at: start + at,
        message: 'An escape in these quotes stands for a hidden character.',
        found,
        mend: 'Write the words without the backslash and what belongs to it.',
      });
    },
  });
}

function fieldsOf(node: Node | null | undefined, start: number): readonly Field[] {
  if (!isMap(node)) return [];
  return node.items.flatMap(({ key, value }) => {
    if (!isScalar(key)) return [];
    const keyAt = start + (key.range?.[0] ?? 0);
    const node = value as Node | null;
    const at = node?.range ? start + node.range[0] : keyAt;
    return [
      { key: scalarText(key), keyAt, text: isScalar(node) ? scalarText(node) : node === null ? '' : COMPOUND, at },
    ];
  });
}

/** Stands for a list or a map where one value is wanted; equal to nothing a person can write. */
const COMPOUND = '\u0000';

function scalarText(node: { readonly value: unknown; readonly source?: string; readonly type?: string }): string {
  if (node.value === null) return '';
  return (node.type === 'PLAIN' && node.source !== undefined ? node.source : String(node.value)).trim();
}

function noteUnknownKey(key: string, at: number, note: Note): void {
  if (KEYS.some((known) => known === key)) return;
  const near = nearest(key, KEYS);
  note({
    rule: 'front-matter-key',
    at,
    message: `The program knows no ${JSON.stringify(key.slice(0, 40))} at the top of a procedure.`,
    found: key,
    mend: near ? `Write ${near}:.` : `Use only ${KEYS.join(', ')}; write anything else as text below.`,
  });
}

function readId(field: Field | undefined, start: number, note: Note): ProcedureId {
  if (field === undefined) {
    note({
      rule: 'procedure-missing',
      at: start,
      message: 'The procedure has no name at the top.',
      found: '',
      mend: 'Add a line such as procedure: LIN-2207.',
    });
    return '' as ProcedureId;
  }
  if (!/^[\p{L}\p{N}](?:[\p{L}\p{N}._-]{0,38}[\p{L}\p{N}])?$/u.test(field.text)) {
    note({
      rule: 'procedure-name',
      at: field.at,
      message: 'The name of a procedure has only letters, digits, hyphens and dots, at most 40.',
      found: field.text,
      mend: 'Write a name such as LIN-2207.',
    });
    return '' as ProcedureId;
  }
  return field.text as ProcedureId;
}

function readAuthor(field: Field | undefined, note: Note): string | null {
  if (field === undefined) return null;
  if (/^[^\p{C}\p{Zl}\p{Zp}]{1,80}$/u.test(field.text)) return field.text;
  note({
    rule: 'author',
    at: field.at,
    message: 'The author is one name, on one line.',
    found: field.text === COMPOUND ? 'a list' : field.text,
    mend: 'Write a name or an id of the room, such as author: Ines.',
  });
  return null;
}

function readSets(field: Field | undefined, note: Note): number {
  if (field === undefined) return 1;
  if (/^[1-9]\d{0,2}$/.test(field.text)) return Number(field.text);
  const message = 'The sets in a bundle are a whole number from 1 to 999.';
  note({ rule: 'sets', at: field.at, message, found: field.text, mend: 'Write a number such as sets: 2.' });
  return 1;
}

function readChoice<const T extends string>(
  field: Field | undefined,
  known: readonly [T, ...T[]],
  key: Key,
  note: Note,
): T {
  if (field === undefined) return known[0];
  const found = known.find((one) => one === field.text.toLowerCase().replace(/\s+/g, ' '));
  if (found !== undefined) return found;
  const near = nearest(field.text, known);
  note({
    rule: key.replace(' ', '-'),
    at: field.at,
    message: `After ${key}: stands one of ${known.join(', ')}.`,
    found: field.text,
    mend: `Write ${key}: ${near ?? known[0]}.`,
  });
  return known[0];
}

function entries(root: ParsedNode | null, key: keyof typeof EXAMPLES, start: number, note: Note): readonly Field[] {
  if (!isMap(root)) return [];
  const node = root.items.find((pair) => isScalar(pair.key) && scalarText(pair.key) === key)?.value as
    | Node
    | null
    | undefined;
  if (node === undefined || node === null || (isScalar(node) && node.value === null)) return [];
  if (isMap(node)) return fieldsOf(node, start);
  note({
    rule: `${key}-unreadable`,
    at: start + (node.range?.[0] ?? 0),
    message: `Under ${key}: stands one name: value on each line.`,
    found: isScalar(node) ? scalarText(node) : 'a list',
    mend: `Write lines such as "${EXAMPLES[key]}", with two spaces before the name.`,
  });
  return [];
}

const EXAMPLES = {
  kit: '  A: front panel',
  values: '  allowance: 12',
  silenced: '  picture-at-hazard: the offcut has no drawing',
} as const;

function readValues(fields: readonly Field[], note: Note): ReadonlyMap<string, string> {
  const values = new Map<string, string>();
  for (const { key, text, at } of fields) {
    if (text !== '' && text.length <= 200 && !/[\n\u0000{}[\]()`*_|<>#\\]/.test(text)) {
      values.set(key, text);
      continue;
    }
    note({
      rule: 'values-unreadable',
      at,
      message: `The value ${JSON.stringify(key.slice(0, 40))} is not a number or a few plain words.`,
      found: text === COMPOUND ? 'a list' : text,
      mend: `Write it on one line without brackets, stars or underscores, such as allowance: 12.`,
    });
  }
  return values;
}
