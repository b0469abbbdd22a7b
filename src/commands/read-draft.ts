import type { Finding } from '../base/finding.ts';
import { withDigests } from '../procedure/pictures.ts';
import type { Picture, Procedure } from '../procedure/procedure.ts';
import type { Silenced } from '../procedure/proof/silence.ts';
import { proofread } from '../procedure/proofread.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { compareSheet } from '../procedure/sheet.ts';
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

export type Proofreader = typeof proofread;

/** Reads a draft. Pictures are looked for when it lies in the room, as they will be at its release. */
export function readDraft(folder: string, file: ProcedureFile, proof: Proofreader = proofread): ReadDraft {
  const { procedure, findings, silenced } = proof(file.text, file.name);
  const differs = asSheet(folder, file, procedure);
  if (nameInside(folder, file.path) === undefined)
    return { procedure, findings: [...findings, ...differs], silenced, pictures: [] };
  const pictures = procedure.steps.flatMap((step) => step.pictures);
  // Several steps show parts of one picture.
  const reads = new Map<string, ReturnType<typeof readPicture>>();
  const missing = pictures.flatMap((picture) => {
    const read = reads.get(picture.address) ?? readPicture(folder, file.name, picture.address);
    reads.set(picture.address, read);
    return read.ok ? [] : [findingOf(file, picture, read.error.message)];
  });
  const found = [...reads].flatMap(([address, read]) => (read.ok ? [{ address, ...read.value }] : []));
  return {
    procedure: withDigests(procedure, found),
    silenced,
    pictures: found,
    findings: [...findings, ...differs, ...missing].sort((a, b) => a.line - b.line || a.column - b.column),
  };
}

/** A proofreader for whoever reads a whole folder again at each save: what stands as it stood is not proofread twice. */
export function patientProofreader(): Proofreader {
  const known = new Map<string, { readonly text: string; readonly proof: ReturnType<typeof proofread> }>();
  return (text, name) => {
    const before = known.get(name);
    if (before?.text === text) return before.proof;
    const proof = proofread(text, name);
    known.set(name, { text, proof });
    return proof;
  };
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

function findingOf({ name, text }: ProcedureFile, { line, address }: Picture, message: string): Finding {
  const written = text.split(/\r?\n/)[line - 1] ?? '';
  const column = Math.max(0, written.indexOf(address)) + 1;
  const mend = 'Put the file where the address says, or write where it is, such as ../media/lining.svg.';
  return { file: name, line, column, severity: 'error', rule: 'picture-missing', message, found: address, mend };
}
