import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Digest, ProcedureId } from '../base/brand.ts';
import { type Language, languages, sheetLanguage } from '../base/language.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { nameKey, sameName } from '../bundle/same-name.ts';
import { digestOf } from '../ledger/leaf.ts';
import { nameInside } from './name-inside.ts';
import { inPlainWords, refuseTrouble } from './trouble.ts';

/** A longer file is no procedure for a person to follow. Bytes. */
const PROCEDURE_LIMIT = 2_000_000;

/** A procedure's text as it is on disk, not yet understood. */
export interface ProcedureFile {
  /** Relative to the room with forward slashes, such as `procedures/LIN-2207.md`; absolute when it is outside the room. */
  readonly name: string;
  /** Absolute, with all links followed. */
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly digest: Digest;
  /** The bytes as UTF-8, without byte order mark. */
  readonly text: string;
}

/**
 * The room's drafts, `procedures/*.md` but for `README.md`, as names relative to the room in alphabetical order. Throws
 * `StoreTrouble` when the folder cannot be read.
 */
export const listProcedures = (room: string): readonly string[] =>
  listTexts(room).filter((name) => sheetLanguage(name) === null);

/** The same with the sheets in other languages, such as `procedures/LIN-2207.es.md`. */
export function listTexts(room: string): readonly string[] {
  const folder = join(room, 'procedures');
  return inPlainWords(folder, () => readdirSync(folder, { withFileTypes: true }))
    .filter(({ name }) => name.endsWith('.md') && !name.startsWith('.') && name.toLowerCase() !== 'readme.md')
    .filter((entry) => !entry.isDirectory())
    .map(({ name }) => `procedures/${name}`)
    .sort();
}

/** The sheets beside a main text, in the order of the languages. What cannot be read is a refusal. */
export const sheetsOf = (
  room: string,
  { path }: ProcedureFile,
): readonly (readonly [Language, Result<ProcedureFile>])[] =>
  languages.flatMap((language) => {
    const beside = path.replace(/\.md$/i, `.${language}.md`);
    return existsSync(beside) ? [[language, readProcedure(room, beside)] as const] : [];
  });

/** The main text that a sheet stands beside; undefined for what is no sheet. */
export const mainTextOf = (room: string, { path }: ProcedureFile): Result<ProcedureFile> | undefined =>
  sheetLanguage(path) === null ? undefined : readProcedure(room, path.replace(/\.[A-Za-z-]+\.md$/, '.md'));

/**
 * Finds a procedure the way a person names it: a path (from where they stand, from the room, or from its `procedures/`),
 * or the id in a draft's front matter.
 */
export function findProcedure(room: string, named: string): Result<ProcedureFile> {
  const path = [resolve(named), resolve(room, named), resolve(room, 'procedures', named)].find(isFile);
  if (path !== undefined) return readProcedure(room, path);
  if (/[\\/]|\.md$/i.test(named)) {
    return refuse('procedure-missing', `There is no file ${named}: check its name, or give the procedure's id.`);
  }
  return draftOf(room, named as ProcedureId);
}

/** Refuses a text of the room when another one has its id: of the two nobody knows which is meant. */
export function onlyOne(room: string, file: ProcedureFile): Result<ProcedureFile> {
  if (nameInside(room, file.path) === undefined || sheetLanguage(file.path) !== null) return ok(file);
  const [twin] = twinsIn(draftsOf(room))(file);
  return twin ? refuse('procedure-twice', saidTwice(file.name, twin.name, idIn(file.text) ?? '')) : ok(file);
}

/** The drafts of the room that can be read; none where there is no folder for them. */
export function draftsOf(room: string): readonly ProcedureFile[] {
  if (!existsSync(join(room, 'procedures'))) return [];
  return listProcedures(room).flatMap((name) => {
    const file = readProcedure(room, name);
    return file.ok ? [file.value] : [];
  });
}

/** Tells of a text the others among these that have its id; a sheet has that of its main text. */
export function twinsIn(files: readonly ProcedureFile[]): (file: ProcedureFile) => readonly ProcedureFile[] {
  const known = new Map<string, ProcedureFile[]>();
  for (const file of files) {
    const key = idKey(file);
    if (key !== undefined) known.set(key, [...(known.get(key) ?? []), file]);
  }
  return (file) => (known.get(idKey(file) ?? '') ?? []).filter(({ path }) => path !== file.path);
}

/** The same for two texts whose ids are one name to a person. */
function idKey({ text, path }: ProcedureFile): string | undefined {
  const id = idIn(text);
  return id && sheetLanguage(path) === null ? nameKey(id) : undefined;
}

/** Reads one procedure file; `path` is absolute, or relative to the room. */
export function readProcedure(room: string, path: string): Result<ProcedureFile> {
  const place = resolve(room, path);
  try {
    const real = realpathSync(place);
    const { size } = statSync(real);
    if (nameInside(room, place) !== undefined && nameInside(room, real) === undefined) {
      return refuse(
        'procedure-outside',
        `${path} is a link that leads out of the room: put the file itself into procedures/.`,
      );
    }
    if (!isFile(real)) return refuse('procedure-file', `${path} is no file: name a Markdown file.`);
    if (size > PROCEDURE_LIMIT) {
      return refuse('procedure-large', `${path} is longer than 2 MB: split it into procedures a person can follow.`);
    }
    const bytes = readFileSync(real);
    const text = textOf(bytes);
    if (text === undefined) {
      return refuse('procedure-encoding', `${path} is not written in UTF-8: save it as UTF-8 in your editor.`);
    }
    return ok({ name: nameInside(room, real) ?? real, path: real, bytes, digest: digestOf(bytes), text });
  } catch (error) {
    return refuseTrouble('procedure-unreadable', error, place);
  }
}

/** The bytes of a file as text; `undefined` when it is no UTF-8. */
function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function draftOf(room: string, id: ProcedureId): Result<ProcedureFile> {
  const files = listProcedures(room).map((name) => readProcedure(room, name));
  const found = files.flatMap((file) => (file.ok && sameName(idIn(file.value.text) ?? '', id) ? [file.value] : []));
  const [only, other] = found;
  if (only && other) return refuse('procedure-twice', saidTwice(only.name, other.name, id));
  if (only) return ok(only);
  const ids = files.flatMap((file) => (file.ok ? (idIn(file.value.text) ?? []) : []));
  const known = ids.length === 0 ? 'the folder procedures/ holds none yet' : `the room has ${ids.join(', ')}`;
  return refuse('procedure-missing', `No procedure ${id} in procedures/: ${known}.`);
}

const saidTwice = (one: string, other: string, id: string): string =>
  `Both ${one} and ${other} say \`procedure: ${id}\`: give one of them another id.`;

/** The id in the front matter, without reading the rest: a draft with mistakes can still be found by its id. */
function idIn(text: string): string | undefined {
  const front = /^---\r?\n([\s\S]*?)\r?\n---/.exec(text)?.[1];
  return front === undefined ? undefined : /^procedure:[ \t]*(["']?)(.*?)\1[ \t]*(?:#.*)?\r?$/m.exec(front)?.[2];
}

/** What cannot even be looked at counts as a file: whoever reads it then says why it can't be read. */
function isFile(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false })?.isFile() ?? false;
  } catch {
    return true;
  }
}
