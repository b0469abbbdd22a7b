import { randomInt } from 'node:crypto';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { tempFolder } from '../storage/temp-folder.ts';
import { expectWhole } from './expect-whole.ts';
import { numbersFrom } from './numbers-from.ts';
import { startWriter } from './writer.ts';

const ROUNDS = 200;

it(`loses nothing that was acknowledged over ${ROUNDS} kills at random instants, a second writer beside`, async () => {
  const seed = Number(process.env.KILL_SEED ?? randomInt(2 ** 32));
  console.log(`kill rounds with KILL_SEED=${seed}`);
  const random = numbersFrom(seed);
  const file = join(tempFolder(), 'ledger.db');
  const beside = startWriter({ file, name: 'beside', count: 'forever', restMs: 10 });
  await beside.ready;

  let told = 0;
  const victims: ReadonlyMap<number, string>[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const victim = startWriter({ file, name: `victim-${round}`, count: 'forever' });
    // Every fourth is shot while it starts, the others while they write.
    if (round % 4 !== 0) await victim.ready;
    await setTimeout(random() * (round % 4 === 0 ? 200 : 80));
    victim.child.kill('SIGKILL');
    expect(await victim.ended, `round ${round}`).toBe('SIGKILL');
    told += victim.acknowledged.size;
    victims.push(victim.acknowledged);
    // Reading all of it takes longer the more there is.
    if (round % 20 === 19) await expectWhole(file, ...victims.splice(0), new Map(beside.acknowledged));
  }

  beside.child.kill('SIGKILL');
  expect(await beside.ended).toBe('SIGKILL');
  const whole = await expectWhole(file, beside.acknowledged);
  console.log(
    `${told} entries acknowledged to killed writers, ${beside.acknowledged.size} to the one beside, ${whole} kept`,
  );
  expect(told).toBeGreaterThan(ROUNDS);
  expect(whole).toBeGreaterThanOrEqual(told + beside.acknowledged.size);
});
