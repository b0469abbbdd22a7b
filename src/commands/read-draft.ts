import type { Finding } from '../base/finding.ts';
import type { Result } from '../base/result.ts';
import { isDrawing } from '../drawing/measurable.ts';
import { type DrawingRead, readDrawing } from '../drawing/read-drawing.ts';
import { withDigests } from '../procedure/pictures.ts';
import type { Picture, Procedure } from '../procedure/procedure.ts';
import type { Silenced } from '../procedure/proof/silence.ts';
import { proofread } from '../procedure/proofread.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { compareSheet } from '../procedure/sheet.ts';
import { wayOut } from '../procedure/way-out.ts';
import { photoTrouble } from '../raster/photo-trouble.ts';
import { nameInside } from '../storage/name-inside.ts';
import { type PictureFile, readPicture } from '../storage/picture-files.ts';
import { mainTextOf, type ProcedureFile } from '../storage/procedure-files.ts';

/** A draft as the program reads it, its pictures with their digests, and what its text and its pictures leave to mend. */
export interface ReadDraft {
  readonly procedure: Procedure;
  readonly findings: readonly Finding[];
  /** Warnings and hints that the text silences, with its reason. */
  readonly silenced: readonly Silenced[];
  /** Its pictures as they are now, each once; only of a draft that lies in the room. */
  readonly pictures: readonly (PictureFile & { readonly address: string })[];
}

/** Proofreads a text by its file's name; pictures that it shows are looked up by their address, or not at all. */
export type Proofreader = (
  text: string,
  name: string,
  pictureAt: ((address: string) => Result<PictureFile>) | null,
) => ReturnType<typeof proofread>;

/** Reads a draft. Pictures are looked for when it lies in the room, as they will be at its release; its file may be named from elsewhere. */
export function readDraft(folder: string, file: ProcedureFile, proof: Proofreader = patientProofreader()): ReadDraft {
  const name = nameInside(folder, file.path);
  // Several steps show parts of one picture.
  const reads = new Map<string, Result<PictureFile>>();
  const pictureAt = (address: string): Result<PictureFile> => {
    const read = reads.get(address) ?? readPicture(folder, name ?? file.name, address);
    reads.set(address, read);
    return read;
  };
  const { procedure, findings, silenced } = proof(file.text, file.name, name === undefined ? null : pictureAt);
  const differs = asSheet(folder, file, procedure);
  if (name === undefined) return { procedure, findings: [...findings, ...differs], silenced, pictures: [] };
  const pictures = procedure.steps.flatMap((step) => step.pictures);
  const missing = pictures.flatMap((picture) => {
    const wrong = wrongWith(picture.address, pictureAt(picture.address));
    return wrong ? [findingOf(file, picture, wrong)] : [];
  });
  const found = [...reads].flatMap(([address, read]) => (read.ok ? [{ address, ...read.value }] : []));
  return {
    procedure: withDigests(procedure, found),
    silenced,
    pictures: found,
    findings: [...findings, ...differs, ...missing].sort((a, b) => a.line - b.line || a.column - b.column),
  };
}

/**
 * A proofreader for whoever reads a whole folder, or reads it again at each save: a drawing is read once, and a text that stands as it
 * stood, with drawings that stand as they stood, is not proofread twice.
 */
export function patientProofreader(): Proofreader {
  const drawings = new Map<string, DrawingRead>();
  const known = new Map<string, Known>();
  return (text, name, pictureAt) => {
    const seen = new Map<string, DrawingRead | undefined>();
    const drawingAt = (address: string): DrawingRead | undefined => {
      const picture = pictureAt?.(address);
      if (!picture?.ok || !isDrawing(picture.value.name)) return undefined;
      const { digest, bytes } = picture.value;
      const read = drawings.get(digest) ?? readDrawing(new TextDecoder().decode(bytes), address);
      drawings.set(digest, read);
      return read;
    };
    const before = known.get(name);
    if (before?.text === text && [...before.seen].every(([address, read]) => drawingAt(address) === read))
      return before.proof;
    const looking = (address: string): DrawingRead | undefined => {
      const read = drawingAt(address);
      seen.set(address, read);
      return read;
    };
    const proof = proofread(text, name, pictureAt === null ? null : looking);
    known.set(name, { text, seen, proof });
    return proof;
  };
}

interface Known {
  readonly text: string;
  /** The drawings it showed, by their address. */
  readonly seen: ReadonlyMap<string, DrawingRead | undefined>;
  readonly proof: ReturnType<typeof proofread>;
}

/** What a sheet has otherwise than its main text; nothing for a main text. */
function asSheet(folder: string, file: ProcedureFile, sheet: Procedure): readonly Finding[] {
  const main = file.path === '' ? undefined : mainTextOf(folder, file);
  if (!main) return [];
  const wrong = { file: file.name, line: 1, column: 1, severity: 'error', found: file.name } as const;
  if (!main.ok) {
    const message = `A sheet in another language stands beside its main text, and there is none. ${main.error.message}`;
    return [
      { ...wrong, rule: 'sheet-alone', message, mend: 'Put the main text beside it, or give the file another name.' },
    ];
  }
  const { procedure, findings } = readProcedure(main.value.text, main.value.name);
  if (findings.every(({ severity }) => severity !== 'error')) return compareSheet(procedure, sheet, file.name);
  const message = 'Its main text has errors, so the two can’t be compared yet.';
  return [{ ...wrong, rule: 'sheet-differs', message, mend: `Mend ${main.value.name} first.` }];
}

type Wrong = Pick<Finding, 'rule' | 'message' | 'mend'>;

/** What keeps a picture from being shown, as far as its file tells at once. */
function wrongWith(address: string, read: Result<PictureFile>): Wrong | undefined {
  if (!read.ok) {
    const mend = 'Put the file where the address says, or write where it is, such as ../media/lining.svg.';
    return { rule: 'picture-missing', message: read.error.message, mend };
  }
  const trouble = isDrawing(read.value.name) ? undefined : photoTrouble(read.value.bytes);
  if (!trouble) return undefined;
  const { message, mend } = wayOut(trouble.message);
  return { rule: 'picture-unshown', message: `${address}: ${message}`, mend: mend ?? '' };
}

function findingOf({ name, text }: ProcedureFile, { line, address }: Picture, wrong: Wrong): Finding {
  const written = text.split(/\r?\n/)[line - 1] ?? '';
  const column = Math.max(0, written.indexOf(address)) + 1;
  return { file: name, line, column, severity: 'error', found: address, ...wrong };
}
