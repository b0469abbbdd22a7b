import type { HandId } from '../base/brand.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import type { Meaning } from '../bundle/meaning.ts';

/** Who answers for an entry, and for what. */
interface EntrySignature {
  readonly by: HandId;
  readonly meaning: Meaning;
  /** Whether a PIN proved it, or only the name that was signed on. */
  readonly shown: 'with PIN' | 'by name';
}

/** The signature an entry carries; null for what nobody answers for beyond having done it. Its date and time are the entry's. */
export function signatureOf(entry: RecordedEntry): EntrySignature | null {
  const meaning = meaningOf(entry);
  if (!meaning) return null;
  const typist = 'paper' in entry.body ? entry.body.paper?.by : undefined;
  const by = typist ?? (entry.kind === 'checked' ? (entry.body.witness ?? entry.hand) : entry.hand);
  return { by, meaning, shown: 'signed' in entry.body && entry.body.signed ? 'with PIN' : 'by name' };
}

/** `settled with PIN`, or the meaning alone; null without a signature. */
export function meaningWords(entry: RecordedEntry): string | null {
  const signature = signatureOf(entry);
  return signature && (signature.shown === 'with PIN' ? `${signature.meaning} with PIN` : signature.meaning);
}

function meaningOf(entry: RecordedEntry): Meaning | null {
  if ('paper' in entry.body && entry.body.paper) return 'typed from paper';
  switch (entry.kind) {
    case 'checked':
      return entry.body.witness === undefined ? 'done' : 'witnessed';
    case 'finished':
      return 'done';
    case 'settled':
    case 'released':
    case 'withdrawn':
    case 'struck':
    case 'enrolled':
    case 'retired':
    case 'keyed':
      return entry.kind;
    case 'printed':
      return entry.body.copy > 0 ? 'reprinted' : null;
    case 'skilled':
      return 'skill entered';
    case 'pin-set':
      return 'PIN set';
    case 'signed-on':
      return 'signed on';
    default:
      return null;
  }
}
