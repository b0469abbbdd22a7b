import type { Digest } from '../base/brand.ts';
import { digestOf } from './leaf.ts';
import type { KeptText, LedgerStore, StoredEntry } from './ledger-store.ts';
import { matchesFilter } from './matches-filter.ts';
import { sealEntry } from './seal-entry.ts';
import { sealedNote } from './sealed-note.ts';
import { type NodeAt, nodeDigest } from './tree.ts';

/**
 * A ledger that lives as long as the program: for rehearsals, which record nothing, and for tests.
 * It keeps every promise of the port but durability. `entries`, in order of seq, are what it starts with.
 */
export function memoryLedger(station: string, entries: readonly StoredEntry[] = []): LedgerStore {
  const lines = [...entries];
  const texts = new Map<Digest, KeptText>();
  const notes: string[] = [];
  const nodeAt: NodeAt = (level, place) =>
    level === 0
      ? (lines[place]?.leaf ?? missing(place))
      : nodeDigest(nodeAt(level - 1, 2 * place), nodeAt(level - 1, 2 * place + 1));
  const head = (): number => lines.at(-1)?.entry.seq ?? -1;

  return {
    station,
    head: async () => head(),
    append: async (expected, drafts) => {
      const now = head();
      if (now !== expected) return { outcome: 'moved', head: now };
      const added = drafts.map((draft, place) => sealEntry(station, now + 1 + place, draft));
      lines.push(...added);
      return { outcome: 'appended', entries: added };
    },
    read: async (filter) => lines.filter(({ entry }) => matchesFilter(entry, filter)),
    keep: async (kept) => {
      for (const text of kept)
        if (digestOf(text.bytes) !== text.digest) throw new Error(`${text.name} has another digest`);
      for (const text of kept)
        if (!texts.has(text.digest)) texts.set(text.digest, { ...text, bytes: text.bytes.slice() });
    },
    kept: async (digest) => texts.get(digest),
    tree: async () => ({ size: lines.length, nodeAt }),
    seal: async (key) => {
      const note = sealedNote({ size: lines.length, nodeAt }, key);
      if (note !== notes.at(-1)) notes.push(note);
      return note;
    },
    checkpoints: async () => [...notes],
    close: async () => {},
  };
}

function missing(seq: number): never {
  throw new Error(`there is no entry ${seq}`);
}
