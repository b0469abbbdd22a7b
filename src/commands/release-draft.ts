import { findAnyHand } from '../app/find-hand.ts';
import type { Attempted, RoomLedger } from '../app/room-ledger.ts';
import { understoodText } from '../app/understood.ts';
import type { HandId } from '../base/brand.ts';
import type { Finding } from '../base/finding.ts';
import { ok, type Refusal, type Result, refuse } from '../base/result.ts';
import type { Command, Supervisors } from '../bundle/command.ts';
import type { ReleasedSheet } from '../bundle/room.ts';
import type { KeptText, LedgerStore } from '../ledger/ledger-store.ts';
import { withDigests } from '../procedure/pictures.ts';
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

/** A draft that can be released, with the texts that are kept before it is. */
export interface Releasable {
  readonly outcome: 'releasable';
  readonly procedure: Procedure;
  readonly command: Omit<Extract<Command, { readonly do: 'release' }>, 'hand'>;
  readonly texts: readonly KeptText[];
}

export type NotReleasable =
  /** The draft has errors; the warnings are among the findings too. */
  | { readonly outcome: 'errors'; readonly findings: readonly Finding[] }
  | { readonly outcome: 'refused'; readonly refusal: Refusal };

/** A draft as it would be released, with its pictures and the sheets beside it; or why it can't be. */
export function releasable(
  { folder, ledger, supervisors }: Omit<ReleasePlace, 'attempt' | 'store'>,
  draft: ProcedureFile,
  beside: Sheets = sheetsOf(folder, draft),
): Releasable | NotReleasable {
  const { procedure, findings } = readDraft(folder, draft);
  if (findings.some(({ severity }) => severity === 'error')) return { outcome: 'errors', findings };
  const author = procedure.author === null ? noAuthor(draft) : findAnyHand(ledger.room(), procedure.author);
  if (!author.ok) return { outcome: 'refused', refusal: author.error };
  const addresses = procedure.steps.flatMap((step) => step.pictures.map(({ address }) => address));
  const texts = releaseTexts(folder, draft, [...new Set(addresses)]);
  if (!texts.ok) return { outcome: 'refused', refusal: texts.error };
  const sheets = sheetTexts(folder, beside, procedure);
  if (!sheets.ok) return { outcome: 'refused', refusal: sheets.error };
  const { procedure: text, pictures } = texts.value;
  const drawn = withDigests(procedure, pictures);
  const understood = understoodText(drawn, draft.name);
  return {
    outcome: 'releasable',
    procedure: drawn,
    texts: [text, understood, ...pictures, ...sheets.value.flatMap((sheet) => sheet.texts)],
    command: {
      do: 'release',
      procedure: procedure.id,
      title: procedure.title,
      author: author.value.id,
      supervisors,
      digest: text.digest,
      understood: understood.digest,
      ...(sheets.value.length > 0 ? { sheets: sheets.value.map(({ released }) => released) } : {}),
      pictures: pictures.map(({ address, digest }) => ({ address, digest })),
    },
  };
}

/**
 * Freezes a draft and its pictures, by digest, as the next revision. The texts are on disk before the entry that names
 * them. Rejects with `StoreTrouble` when the ledger cannot be used.
 */
export async function release(
  { store, attempt }: Pick<ReleasePlace, 'store' | 'attempt'>,
  { command, texts }: Releasable,
  hand: HandId,
): Promise<Result<Attempted>> {
  await store.keep(texts);
  return attempt({ ...command, hand });
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
