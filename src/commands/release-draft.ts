import { findAnyHand } from '../app/find-hand.ts';
import type { Attempted, RoomLedger } from '../app/room-ledger.ts';
import { understoodText } from '../app/understood.ts';
import type { Digest, HandId, ProcedureId } from '../base/brand.ts';
import { ok, type Refusal, type Result, refuse } from '../base/result.ts';
import type { Command, Supervisors } from '../bundle/command.ts';
import type { ReleasedSheet } from '../bundle/room.ts';
import type { KeptText, LedgerStore } from '../ledger/ledger-store.ts';
import type { Finding } from '../procedure/finding.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { inLanguage } from '../procedure/sheet.ts';
import { type ProcedureFile, sheetsOf } from '../storage/procedure-files.ts';
import { releaseTexts } from '../storage/release-texts.ts';
import { readDraft } from './read-draft.ts';

/** Where a draft is released: the room's folder, and its ledger. */
export interface ReleasePlace {
  readonly folder: string;
  readonly store: LedgerStore;
  readonly ledger: RoomLedger;
  readonly supervisors: Supervisors;
  /** Attempts the release, with the signature it takes. */
  readonly attempt: (command: Command) => Promise<Result<Attempted>>;
}

export type Released =
  | {
      readonly outcome: 'released';
      readonly procedure: ProcedureId;
      readonly revision: string;
      readonly digest: Digest;
    }
  /** The draft has errors; the warnings are among the findings too. */
  | { readonly outcome: 'errors'; readonly findings: readonly Finding[] }
  | { readonly outcome: 'refused'; readonly refusal: Refusal };

/**
 * Freezes a draft and its pictures, by digest, as the next revision. The texts are on disk before the entry that names
 * them. Rejects with `StoreTrouble` when the ledger cannot be used.
 */
export async function releaseDraft(
  { folder, store, ledger, supervisors, attempt }: ReleasePlace,
  draft: ProcedureFile,
  hand: HandId,
  beside: Sheets = sheetsOf(folder, draft),
): Promise<Released> {
  const { procedure, findings } = readDraft(folder, draft);
  if (findings.some(({ severity }) => severity === 'error')) return { outcome: 'errors', findings };
  const author = procedure.author === null ? noAuthor(draft) : findAnyHand(ledger.room(), procedure.author);
  if (!author.ok) return { outcome: 'refused', refusal: author.error };
  const addresses = procedure.steps.flatMap((step) => step.pictures.map(({ address }) => address));
  const texts = releaseTexts(folder, draft, [...new Set(addresses)]);
  if (!texts.ok) return { outcome: 'refused', refusal: texts.error };
  const { procedure: text, pictures } = texts.value;
  const understood = understoodText(procedure, draft.name);
  await store.keep([text, understood, ...pictures]);
  const sheets = sheetTexts(folder, beside, procedure);
  if (!sheets.ok) return { outcome: 'refused', refusal: sheets.error };
  await store.keep(sheets.value.flatMap(({ texts }) => texts));
  const { id, title } = procedure;
  const done = await attempt({
    do: 'release',
    hand,
    procedure: id,
    title,
    author: author.value.id,
    supervisors,
    digest: text.digest,
    understood: understood.digest,
    ...(sheets.value.length > 0 ? { sheets: sheets.value.map(({ released }) => released) } : {}),
    pictures: pictures.map(({ address, digest }) => ({ address, digest })),
  });
  if (!done.ok) return { outcome: 'refused', refusal: done.error };
  const revision = done.value.room.releases.get(id)?.at(-1)?.revision ?? '';
  return { outcome: 'released', procedure: id, revision, digest: text.digest };
}

/** The sheets in other languages that are released with a main text. */
type Sheets = ReturnType<typeof sheetsOf>;

interface SheetTexts {
  readonly released: ReleasedSheet;
  readonly texts: readonly KeptText[];
}

/** The sheets beside a draft, with the procedure that each comes to; refused when one cannot be read or does not agree. */
function sheetTexts(folder: string, sheets: Sheets, main: Procedure): Result<readonly SheetTexts[]> {
  const found: SheetTexts[] = [];
  for (const [language, file] of sheets) {
    if (!file.ok) return file;
    const { name, digest, bytes } = file.value;
    const { procedure, findings } = readDraft(folder, file.value);
    const wrong = findings.find(({ severity }) => severity === 'error');
    if (wrong) return refuse('sheet-errors', `${name}, line ${wrong.line}: ${wrong.message} Mend it, then release.`);
    const understood = understoodText(inLanguage(main, procedure), name);
    found.push({
      released: { language, digest, understood: understood.digest },
      texts: [{ name, digest, bytes }, understood],
    });
  }
  return ok(found);
}

const noAuthor = ({ name }: ProcedureFile): Result<never> =>
  refuse('author-missing', `${name} does not say who wrote it: add a line such as author: Ines at its top.`);
