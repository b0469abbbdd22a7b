import type { DeskDraft } from '../app/desk.ts';
import type { RoomLedger } from '../app/room-ledger.ts';
import type { Refusal } from '../base/result.ts';
import { releasesOf } from '../bundle/room.ts';
import { isSameText } from '../bundle/same-text.ts';
import { differences } from '../procedure/differences.ts';
import { readProcedure as understand } from '../procedure/read-procedure.ts';
import { listProcedures, type ProcedureFile, readProcedure, sheetsOf } from '../storage/procedure-files.ts';
import { sameIds, unreadFile } from './file-findings.ts';
import { type Proofreader, readDraft } from './read-draft.ts';

/** The room's drafts as they stand on the disk now, each beside its newest revision. What cannot be read has a finding that says why. */
export async function seeDrafts(folder: string, ledger: RoomLedger, proof: Proofreader): Promise<readonly DeskDraft[]> {
  const drafts: DeskDraft[] = [];
  const files = listProcedures(folder).map((name) => [name, readProcedure(folder, name)] as const);
  const readable = files.flatMap(([, file]) => (file.ok ? [file.value] : []));
  const twice = sameIds(readable, readable);
  for (const [name, file] of files) {
    if (!file.ok) {
      drafts.push(unreadable(name, file.error));
      continue;
    }
    const draft = await seen(folder, file.value, ledger, proof);
    drafts.push({ ...draft, findings: [...draft.findings, ...twice.filter((each) => each.file === draft.file)] });
  }
  return drafts;
}

async function seen(folder: string, file: ProcedureFile, ledger: RoomLedger, proof: Proofreader): Promise<DeskDraft> {
  const { procedure, findings, pictures } = readDraft(folder, file, proof);
  const found = sheetsOf(folder, file);
  const beside = found.flatMap(([language, sheet]) => (sheet.ok ? [{ language, ...sheet.value }] : []));
  const unread = found.flatMap(([, sheet]) => (sheet.ok ? [] : [unreadFile(file.name, sheet.error)]));
  const sheets = beside.flatMap((sheet) => readDraft(folder, sheet, proof).findings);
  const release = releasesOf(ledger.room(), procedure.id).at(-1);
  const isReleased = isSameText(release, { digest: file.digest, pictures, sheets: beside });
  const before = release && !isReleased ? await ledger.procedure(release.understood) : undefined;
  return {
    file: file.name,
    procedure,
    findings: [...findings, ...sheets, ...unread],
    revision: release?.revision ?? null,
    withdrawn: release?.withdrawn != null,
    isReleased,
    changes: before?.ok ? differences(before.value, procedure) : [],
  };
}

function unreadable(file: string, error: Refusal): DeskDraft {
  const { procedure } = understand('', file);
  return {
    file,
    procedure,
    findings: [unreadFile(file, error)],
    revision: null,
    withdrawn: false,
    isReleased: false,
    changes: [],
  };
}
