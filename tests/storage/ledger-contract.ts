import { describe, expect, it } from 'vitest';
import { openCheckpoint } from '../../src/ledger/checkpoint.ts';
import { decodeEntry } from '../../src/ledger/decode-entry.ts';
import type { Draft, Json } from '../../src/ledger/entry.ts';
import { digestOf, leafDigest } from '../../src/ledger/leaf.ts';
import type { KeptText, LedgerStore } from '../../src/ledger/ledger-store.ts';
import { newSigningKey, verifierOf } from '../../src/ledger/note-key.ts';
import { emptyFrontier, frontierOf, grown, rootOf } from '../../src/ledger/tree.ts';
import { treeOf } from '../ledger/tree-of.ts';

/** Where a contract's ledgers come from. */
export interface LedgerFactory {
  /** An empty ledger of station `table-1`. */
  open(): Promise<LedgerStore>;
  /** The same ledger once more, as after a restart; left out by a store that forgets. */
  reopen?(): Promise<LedgerStore>;
}

/** What every ledger promises, whatever it is kept in. `make` is called anew for each test. */
export function ledgerContract(name: string, make: () => LedgerFactory): void {
  describe(`${name} keeps the promises of a ledger`, () => {
    const opened = () => make().open();

    it('is empty at first', async () => {
      const ledger = await opened();
      expect([ledger.station, await ledger.head(), await ledger.read({})]).toEqual(['table-1', -1, []]);
    });

    it('counts from 0 without gaps and keeps the order', async () => {
      const ledger = await opened();
      await ledger.append(-1, [draft('opened'), draft('checked')]);
      await ledger.append(1, [draft('finished')]);
      expect(await kindsIn(ledger)).toEqual(['0 opened', '1 checked', '2 finished']);
      expect(await ledger.head()).toBe(2);
    });

    it('answers an append with what it will read later, byte for byte', async () => {
      const ledger = await opened();
      const appended = await ledger.append(-1, [
        draft('checked', { value: 312.5, note: 'é 😂 \u0000 \u2028' }),
        draft('noted'),
      ]);
      expect(appended).toEqual({ outcome: 'appended', entries: await ledger.read({}) });
    });

    it('keeps each entry as its own canonical text with its leaf', async () => {
      const ledger = await opened();
      await ledger.append(-1, [draft('checked', { b: 1, a: [true, null, -0] })]);
      const [stored] = await ledger.read({});
      expect(stored?.text).toBe(
        '{"at":"2026-11-25T10:42:07.120+01:00","body":{"a":[true,null,0],"b":1},"hand":"OP-02","kind":"checked","seq":0,"station":"table-1","v":1}',
      );
      expect(stored && decodeEntry(stored.text)).toEqual({ ok: true, value: stored?.entry });
      expect(stored?.leaf).toBe(leafDigest(stored?.text ?? ''));
    });

    it('writes nothing for a writer who has not read the latest entry', async () => {
      const ledger = await opened();
      await ledger.append(-1, [draft('opened')]);
      expect(await ledger.append(-1, [draft('late'), draft('later')])).toEqual({ outcome: 'moved', head: 0 });
      expect(await ledger.append(1, [draft('too early')])).toEqual({ outcome: 'moved', head: 0 });
      expect(await kindsIn(ledger)).toEqual(['0 opened']);
    });

    it('lets one of two writers who start together through', async () => {
      const ledger = await opened();
      const both = await Promise.all([ledger.append(-1, [draft('a')]), ledger.append(-1, [draft('b')])]);
      expect(both.map(({ outcome }) => outcome).sort()).toEqual(['appended', 'moved']);
    });

    it('takes an append of nothing', async () => {
      const ledger = await opened();
      expect(await ledger.append(-1, [])).toEqual({ outcome: 'appended', entries: [] });
    });

    it.each<[string, Draft]>([
      ['a stamp that is none', { ...draft('checked'), at: 'yesterday' }],
      ['a lone surrogate', draft('noted', { text: '\ud800' })],
      ['a number that is not finite', draft('checked', { value: Number.NaN })],
    ])('refuses %s together with everything in its append', async (_, bad) => {
      const ledger = await opened();
      await expect(ledger.append(-1, [draft('opened'), bad])).rejects.toThrow();
      expect(await ledger.head()).toBe(-1);
      expect((await ledger.append(-1, [draft('opened')])).outcome).toBe('appended');
    });

    it.each([
      ['everything', {}, [0, 1, 2, 3, 4, 5]],
      ['a ticket', { ticket: 'B-1041' }, [1, 2, 4]],
      ['a hand', { hand: 'OP-03' }, [3, 4]],
      ['a kind', { kinds: ['checked'] }, [2, 3, 4]],
      ['several kinds', { kinds: ['opened', 'enrolled'] }, [0, 1]],
      ['no kind', { kinds: [] }, []],
      ['what is new', { after: 3 }, [4, 5]],
      ['nothing new', { after: 5 }, []],
      ['all conditions at once', { ticket: 'B-1041', hand: 'OP-03', kinds: ['checked'], after: 0 }, [4]],
      ['a ticket nobody has', { ticket: 'B-9' }, []],
      ['a ticket that is a number in the body', { ticket: '7' }, []],
    ])('finds %s', async (_, filter, seqs) => {
      const ledger = await opened();
      await ledger.append(-1, [
        draft('enrolled'),
        draft('opened', { ticket: 'B-1041' }),
        draft('checked', { ticket: 'B-1041' }),
        draft('checked', { ticket: 'B-1042' }, 'OP-03'),
        draft('checked', { ticket: 'B-1041' }, 'OP-03'),
        draft('noted', { ticket: 7 }),
      ]);
      expect((await ledger.read(filter)).map(({ entry }) => entry.seq)).toEqual(seqs);
    });

    it('finds names in any writing exactly', async () => {
      const ledger = await opened();
      const names = ['Inès', 'Ine\u0300s', 'イネス', '👩‍🏭', "O'Neil", 'a"b', '%', '\u0000', 'B-1\u0000x'];
      await ledger.append(
        -1,
        names.map((name) => draft('checked', { ticket: name }, name)),
      );
      for (const [seq, name] of names.entries()) {
        expect((await ledger.read({ ticket: name, hand: name })).map(({ entry }) => entry.seq)).toEqual([seq]);
      }
    });

    it('grows a tree of hashes over its entries, one append or many at once', async () => {
      const ledger = await opened();
      for (const many of [1, 0, 3, 1, 7, 64, 1]) {
        await ledger.append(
          await ledger.head(),
          Array.from({ length: many }, (_, n) => draft('checked', { n })),
        );
        const { size, nodeAt } = await ledger.tree();
        const leaves = (await ledger.read({})).map(({ leaf }) => leaf);
        expect(size).toBe(leaves.length);
        expect(frontierOf(size, nodeAt)).toEqual(frontierOf(size, treeOf(leaves)));
        expect(frontierOf(size, nodeAt)).toEqual(leaves.reduce(grown, emptyFrontier));
      }
    });

    it('signs itself as it stands, once for each size', async () => {
      const ledger = await opened();
      const key = newSigningKey('table-1');
      const empty = await ledger.seal(key);
      await ledger.append(-1, [draft('opened'), draft('checked'), draft('checked')]);
      const note = await ledger.seal(key);
      expect(await ledger.seal(key)).toBe(note);
      expect(await ledger.checkpoints()).toEqual([empty, note]);
      const { size, nodeAt } = await ledger.tree();
      const root = rootOf(frontierOf(size, nodeAt));
      expect(openCheckpoint(note, verifierOf(key))).toMatchObject({
        ok: true,
        value: { origin: 'table-1', size, root },
      });
    });

    it('keeps texts by digest, the first name staying', async () => {
      const ledger = await opened();
      const text = kept('procedures/LIN-2207.md', 'Raw edges to the line: ±1.5 😂\r\n');
      await ledger.keep([text, kept('media/a.svg', '')]);
      await ledger.keep([{ ...text, name: 'procedures/copy.md' }]);
      const found = await ledger.kept(text.digest);
      expect(found && { ...found, bytes: Buffer.from(found.bytes).toString() }).toEqual({
        ...text,
        bytes: 'Raw edges to the line: ±1.5 😂\r\n',
      });
      expect((await ledger.kept(digestOf(new Uint8Array())))?.name).toBe('media/a.svg');
      expect(await ledger.kept(digestOf(Buffer.from('never kept')))).toBeUndefined();
    });

    it('keeps none of several texts when one has a digest that is not its own', async () => {
      const ledger = await opened();
      const good = kept('good', 'good');
      await expect(ledger.keep([good, { ...kept('bad', 'bad'), digest: good.digest }])).rejects.toThrow('digest');
      expect(await ledger.kept(good.digest)).toBeUndefined();
    });

    it('may be closed twice', async () => {
      const ledger = await opened();
      await ledger.close();
      await ledger.close();
    });

    it.runIf(make().reopen)('has everything after a restart', async () => {
      const room = make();
      const first = await room.open();
      await first.append(-1, [draft('opened', { ticket: 'B-1041' }), draft('checked')]);
      await first.keep([kept('media/a.svg', '<svg/>')]);
      const note = await first.seal(newSigningKey('table-1'));
      const before = await first.read({});
      await first.close();
      const again = await room.reopen?.();
      expect(await again?.read({})).toEqual(before);
      expect((await again?.kept(digestOf(Buffer.from('<svg/>'))))?.name).toBe('media/a.svg');
      expect(await again?.checkpoints()).toEqual([note]);
      expect((await again?.append(1, [draft('finished')]))?.outcome).toBe('appended');
      expect((await again?.tree())?.size).toBe(3);
    });
  });
}

export const draft = (kind: string, body: Readonly<Record<string, Json>> = {}, hand = 'OP-02'): Draft => ({
  at: '2026-11-25T10:42:07.120+01:00',
  hand,
  kind,
  body,
});

function kept(name: string, content: string): KeptText {
  const bytes = Buffer.from(content);
  return { digest: digestOf(bytes), name, bytes };
}

async function kindsIn(ledger: LedgerStore): Promise<readonly string[]> {
  return (await ledger.read({})).map(({ entry }) => `${entry.seq} ${entry.kind}`);
}
