import { closest, distance } from 'fastest-levenshtein';
import { type Document, LineCounter, parseDocument, stringify } from 'yaml';
import * as z from 'zod/mini';
import { languages } from '../base/language.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { threadExpected, threadShape } from './thread-settings.ts';

/** The file that makes a folder a room. */
export const ROOM_FILE = 'walkfoot.yaml';

const Settings = z.strictObject({
  /** Show the next action alone and large, for a screen further away. */
  big: z._default(z.boolean(), false),
  /** Ring the terminal's bell at a reading out of its limit. */
  bell: z._default(z.boolean(), true),
  /** Whose PIN is asked: of supervisors when they sign, or of everyone when they sign on, too. */
  pin: z._default(z.enum(['supervisors', 'everyone']), 'supervisors'),
  /** With one supervisor, who writes a procedure may release it; the ledger says so. */
  supervisors: z._default(z.enum(['several', 'one']), 'several'),
  /** What the screens speak, and everybody reads who says nothing else. */
  language: z._default(z.enum(languages), 'en'),
  /** How long nobody touches a key before the station asks again who is there. */
  'lock after': z._default(z.string().check(z.regex(/^(?:off|[1-9]\d{0,2} min)$/)), '30 min'),
  ...threadShape,
});

const RoomFileShape = z.strictObject({
  name: z.string().check(z.regex(/^[^\p{C}\p{Zl}\p{Zp}]{1,80}$/u)),
  // Also the station's name in signatures and in the room's database, so no blanks and no signs with a meaning there.
  station: z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/)),
  settings: z.pipe(
    z.nullish(Settings),
    z.transform((settings) => settings ?? Settings.parse({})),
  ),
});

export type RoomSettings = Readonly<z.infer<typeof Settings>>;
/** What `walkfoot.yaml` says. */
export type RoomFile = Readonly<Omit<z.infer<typeof RoomFileShape>, 'settings'>> & { readonly settings: RoomSettings };

const EXPECTED: Readonly<Record<string, string>> = {
  name: 'the name of the room, up to 80 letters on one line',
  station: 'up to 40 letters, digits, dots and hyphens, such as table-1',
  settings: 'the settings, one below the other',
  'settings.big': 'true or false',
  'settings.bell': 'true or false',
  'settings.pin': 'supervisors or everyone',
  'settings.supervisors': 'several or one',
  'settings.language': `one of ${languages.join(', ')}`,
  'settings.lock after': 'minutes, such as 30 min, or off',
  ...threadExpected,
};

/** Minutes until the station locks; null for never. */
export const lockMinutes = ({ 'lock after': after }: RoomSettings): number | null =>
  after === 'off' ? null : Number.parseInt(after, 10);

/** Reads the text of `walkfoot.yaml`; what it cannot use is refused with its line and what to write instead. Never throws. */
export function readRoomFile(text: string): Result<RoomFile> {
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines });
  const broken = doc.errors[0];
  if (broken) {
    const { line } = lines.linePos(broken.pos[0]);
    return refuse('room-yaml', `${ROOM_FILE}, line ${line}, cannot be read and may be half written: ${mend(text)}.`);
  }
  const value = plain(doc);
  if (value === undefined)
    return refuse('room-yaml', `${ROOM_FILE} uses aliases (*), which it may not: write the words out.`);
  if (value === null) return refuse('room-yaml', `${ROOM_FILE} is empty: ${mend(text)}.`);
  const read = RoomFileShape.safeParse(value);
  if (read.success) return ok(read.data);
  return refuse(
    'room-settings',
    explain(read.error, (path) => lineOf(doc, lines, path)),
  );
}

/** What a new room is to say; the rest as usual. */
export interface NewRoomFile {
  readonly name: string;
  readonly station: string;
  readonly settings?: Partial<RoomSettings>;
}

/** The text of a new `walkfoot.yaml`, or why the name or the station cannot be used. */
export function writeRoomFile({ settings, ...room }: NewRoomFile): Result<string> {
  const text = stringify({ ...room, settings: Settings.parse(settings ?? {}) });
  const read = readRoomFile(text);
  return read.ok ? ok(text) : read;
}

const mend = (text: string): string =>
  text.trim() === '' ? 'write `name:` and `station:` into it' : 'correct it in a text editor, or put back a copy';

/** The document as plain data; an alias counts as unusable, because a few lines of them can fill the memory. */
function plain(doc: Document.Parsed): unknown {
  try {
    return doc.toJS({ maxAliasCount: 0 });
  } catch {
    return undefined;
  }
}

function explain(error: z.core.$ZodError, where: (path: readonly PropertyKey[]) => string): string {
  const issue = error.issues[0];
  if (!issue) return `${ROOM_FILE} cannot be used.`;
  if (issue.code === 'unrecognized_keys') {
    const key = issue.keys[0] ?? '';
    const known = Object.keys(issue.path.length === 0 ? RoomFileShape.shape : Settings.shape);
    return `${ROOM_FILE}, ${where([...issue.path, key])}, has no use for ${JSON.stringify(key)}: ${suggestion(key, known)}`;
  }
  // A ratio is explained with the others.
  const path = issue.path.slice(0, 2).join('.');
  if (path === '') return `${ROOM_FILE} should hold \`name:\` and \`station:\`, each on its own line.`;
  return `${ROOM_FILE}, ${where(issue.path)}: write ${EXPECTED[path] ?? 'something else'} after \`${issue.path.at(-1)?.toString()}:\`.`;
}

function suggestion(key: string, known: readonly string[]): string {
  const nearest = closest(key, known);
  return distance(key, nearest) <= 2
    ? `you may mean \`${nearest}\`.`
    : `it knows ${known.map((name) => `\`${name}\``).join(', ')}.`;
}

/** A line for a path; a member that is missing is looked for at the end. */
function lineOf(doc: Document.Parsed, lines: LineCounter, path: readonly PropertyKey[]): string {
  // A stitch type is a number to YAML, and a word to whoever checks it.
  const asWritten = path.map((key) => (/^\d+$/.test(String(key)) ? Number(key) : key));
  const node = doc.getIn(path, true) ?? doc.getIn(asWritten, true);
  const range =
    typeof node === 'object' && node !== null && 'range' in node && Array.isArray(node.range) ? node.range : [];
  return typeof range[0] === 'number' ? `line ${lines.linePos(range[0]).line}` : 'at its end';
}
