import { join } from 'node:path';
import type { Finding } from '../base/finding.ts';
import type { Refusal } from '../base/result.ts';
import { StoreTrouble } from '../ledger/ledger-store.ts';
import type { Silenced } from '../procedure/proof/silence.ts';
import { findingsReport } from '../reports/findings.ts';
import { nameInside } from '../storage/name-inside.ts';
import { pictureFolders } from '../storage/picture-files.ts';
import {
  draftsOf,
  findProcedure,
  listTexts,
  type ProcedureFile,
  readProcedure,
  sheetsOf,
} from '../storage/procedure-files.ts';
import { roomAround } from '../storage/room-folder.ts';
import { watchSaves } from '../storage/watch-saves.ts';
import { sameIds, unreadFile } from './file-findings.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson } from './io.ts';
import { type Proofreader, patientProofreader, readDraft } from './read-draft.ts';

interface ProofreadOptions extends RoomOption {
  readonly json?: boolean;
  /** A rule, or `true` for the list of them. */
  readonly explain?: string | true;
  readonly watch?: boolean;
}

/** Lists the findings of these procedures, or of every one in the room when none is named. Exit 1 with errors, 2 unread. */
export async function proofreadCommand(named: readonly string[], options: ProofreadOptions, io: Io): Promise<ExitCode> {
  if (options.explain !== undefined) {
    const { explainRule } = await import('./explain-rule.ts');
    return explainRule(options.explain === true ? null : options.explain, options, io);
  }
  const folder = folderOf(options, io);
  const proof = patientProofreader();
  return options.watch ? watching(folder, named, options, io, proof) : once(folder, named, options, io, proof).code;
}

interface Printed {
  readonly code: ExitCode;
  /** Absolute paths of what was read. */
  readonly paths: readonly string[];
}

function once(
  folder: string,
  named: readonly string[],
  { json }: ProofreadOptions,
  io: Io,
  proof: Proofreader,
): Printed {
  const asked = named.length > 0 ? named : listTexts(folder);
  const paths: string[] = [];
  if (asked.length === 0)
    return { code: cannot(io, 'There are no procedures here: name a file, or a room with --room.'), paths };
  const texts = new Map<string, string>();
  const findings: Finding[] = [];
  const silenced: Silenced[] = [];
  /** By their rooms. */
  const read = new Map<string, readonly ProcedureFile[]>();
  /** Texts with pictures that lie in no room. */
  const elsewhere: string[] = [];
  let isUnread = false;
  /** One file that cannot be read hides nothing of the others. */
  const unread = (name: string, refusal: Refusal): void => {
    if (named.length === 0) findings.push(unreadFile(name, refusal));
    else {
      cannot(io, refusal.message);
      isUnread = true;
    }
  };
  for (const each of asked) {
    // What the room lists is in the room, whatever stands where the command was called.
    const draft = named.length > 0 ? findProcedure(folder, each) : readProcedure(folder, each);
    if (!draft.ok) {
      unread(each, draft.error);
      continue;
    }
    // Whoever names a main text means its sheets, too: a change of one is a change of all.
    const beside = named.length > 0 ? sheetsOf(folder, draft.value).map(([, sheet]) => sheet) : [];
    for (const file of [draft, ...beside]) {
      if (!file.ok) {
        unread(each, file.error);
        continue;
      }
      const { name, text, path } = file.value;
      if (texts.has(name)) continue;
      paths.push(path);
      texts.set(name, text);
      // Its pictures, and other texts with its id, are those of the room it lies in, wherever the command was called.
      const home = named.length > 0 ? (roomAround(path) ?? folder) : folder;
      read.set(home, [...(read.get(home) ?? []), file.value]);
      const told = readDraft(home, file.value, proof);
      if (nameInside(home, path) === undefined && told.procedure.steps.some(({ pictures }) => pictures.length > 0))
        elsewhere.push(name);
      findings.push(...told.findings);
      silenced.push(...told.silenced);
    }
  }
  for (const [home, files] of read) findings.push(...sameIds(files, named.length === 0 ? files : draftsOf(home)));
  if (isUnread && read.size === 0) return { code: 2, paths };
  if (json) sayJson(io, [...findings, ...silenced.map(({ finding, reason }) => ({ ...finding, silenced: reason }))]);
  else io.out(findingsReport(findings, texts, undefined, silenced.length));
  // Without a word, nothing to mend would be said of limits that nobody held against their drawing.
  for (const name of elsewhere)
    cannot(io, `${name} lies outside this room, so its pictures were not looked at: name its room with --room.`);
  const code = findings.some(({ severity }) => severity === 'error') ? 1 : 0;
  return { code: isUnread ? 2 : code, paths };
}

/** Prints, and prints afresh after each save, until it is interrupted or what it watches is gone. */
async function watching(
  folder: string,
  named: readonly string[],
  options: ProofreadOptions,
  io: Io,
  proof: Proofreader,
): Promise<ExitCode> {
  const first = once(folder, named, options, io, proof);
  if (first.paths.length === 0 && named.length > 0) return first.code;
  const texts = named.length > 0 ? first.paths : [join(folder, 'procedures')];
  const rooms = new Set([folder, ...first.paths.map((path) => roomAround(path) ?? folder)]);
  const paths = [...texts, ...[...rooms].flatMap(pictureFolders)];
  return new Promise((end) => {
    const stop = watchSaves(paths, {
      saved: () => {
        const start = performance.now();
        if (io.stdout.isTTY) io.out('\x1b[H\x1b[2J');
        try {
          once(folder, named, options, io, proof);
        } catch (trouble) {
          if (!(trouble instanceof StoreTrouble)) throw trouble;
          cannot(io, trouble.message);
        }
        if (!options.json) io.err(`Read again in ${Math.round(performance.now() - start)} ms. Ctrl-C ends.\n`);
      },
      lost: ({ message }) => {
        stop();
        end(cannot(io, message));
      },
    });
    if (!options.json) io.err('Watching for saves. Ctrl-C ends.\n');
    process.once('SIGINT', () => {
      stop();
      end(0);
    });
  });
}
