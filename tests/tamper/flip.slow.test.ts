import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, test } from 'vitest';
import { cuts, flips, otherBytes } from './any-damage.ts';
import { type Damaged, toDamage } from './flipped.ts';

let folder = '';
let ledger: Damaged;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'flip-'));
  ledger = await toDamage(folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('of 3,000 bits turned over each is found, or changes nothing that was recorded', () => flips(ledger, 3_000));

test('of 3,000 bytes put in the place of others each is found, or changes nothing that was recorded', () =>
  otherBytes(ledger, 3_000));

test('of 1,000 files cut off each is found', () => cuts(ledger, 1_000));
