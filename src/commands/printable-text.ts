import type { Finding } from '../base/finding.ts';
import { type Language, sheetLanguage } from '../base/language.ts';
import type { Refusal } from '../base/result.ts';
import { currentRelease, type Release, releasesOf } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { isSameText } from '../bundle/same-text.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { SheetMatter } from '../reports/paper/sheet-matter.ts';
import { findProcedure, type ProcedureFile } from '../storage/procedure-files.ts';
import type { PlayableRoom } from './in-room.ts';
import { paperWords } from './paper-words.ts';
import { readDraft } from './read-draft.ts';

/** A procedure with what a sheet shows of its text. */
export type PrintableText = Pick<SheetMatter, 'procedure' | 'text' | 'pictures' | 'language' | 'say'>;

type Found =
  | { readonly outcome: 'text'; readonly text: PrintableText }
  | { readonly outcome: 'errors'; readonly file: ProcedureFile; readonly findings: readonly Finding[] }
  | { readonly outcome: 'refused'; readonly refusal: Refusal };

/** The revision of a procedure that is in use, in this language where it has it. Where there is none, and where a file is named, the draft; which is none while it says and shows what is in use. */
export async function printableText(typed: string, language: Language, open: PlayableRoom): Promise<Found> {
  const { ledger, room } = open;
  const id = named([...ledger.room().releases.keys()], typed);
  const current = id && currentRelease(ledger.room(), id);
  if (current) {
    const procedure = await ledger.procedure(current.understood);
    return procedure.ok
      ? { outcome: 'text', text: await releasedText(current, procedure.value, language, open) }
      : { outcome: 'refused', refusal: procedure.error };
  }
  const file = findProcedure(room.folder, typed);
  if (!file.ok) return { outcome: 'refused', refusal: file.error };
  const { procedure, findings, pictures } = readDraft(room.folder, file.value);
  if (findings.some(({ severity }) => severity === 'error')) return { outcome: 'errors', file: file.value, findings };
  const { digest } = file.value;
  const released = releasesOf(ledger.room(), procedure.id).at(-1);
  // The sheets of other languages are other papers.
  const isReleased = released !== undefined && isSameText({ ...released, sheets: [] }, { digest, pictures });
  return {
    outcome: 'text',
    text: {
      procedure,
      text: { digest, sheet: null, release: isReleased ? released : null },
      ...(await paperWords(sheetLanguage(file.value.name) ?? language)),
      pictures: new Map(pictures.map(({ address, bytes }) => [address, bytes])),
    },
  };
}

/** A released text, by its sheet in this language where it was released with one, with its pictures as they were kept then. */
export async function releasedText(
  release: Release,
  main: Procedure,
  language: Language,
  { store, ledger }: PlayableRoom,
): Promise<PrintableText> {
  const sheet = release.sheets.find((each) => each.language === language);
  const read = sheet && (await ledger.procedure(sheet.understood));
  const words = sheet && read?.ok ? { procedure: read.value, sheet: sheet.digest } : { procedure: main, sheet: null };
  const kept = await Promise.all(
    release.pictures.map(async (each) => [each.address, (await store.kept(each.digest))?.bytes] as const),
  );
  const found = kept.flatMap(([address, bytes]) => (bytes ? [[address, bytes] as const] : []));
  return {
    procedure: words.procedure,
    text: { digest: release.digest, sheet: words.sheet, release },
    pictures: new Map(found),
    ...(await paperWords(language)),
  };
}
