import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { allChecks } from '../../src/bundle/bundle.ts';
import { progress } from '../../src/bundle/next.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { closed } from './close.ts';
import { open } from './deeds.ts';
import { done, worldOf } from './world.ts';

const folder = new URL('../../procedures/', import.meta.url);
const names = readdirSync(folder).filter((name) => /^[A-Z]+-\d+\.md$/.test(name));

test.each(names)('%s is sewn from its first point to its last, each point once for each set', (name) => {
  const { procedure } = readProcedure(readFileSync(new URL(name, folder), 'utf8'), name);
  const { bundle } = closed(done(worldOf(procedure, procedure.sets), open), 3000);
  if (!bundle) throw new Error('there is no bundle');
  expect(bundle.finished).toMatchObject({ sets: procedure.sets, good: procedure.sets, conceded: 0, scrapped: 0 });
  expect(bundle.holds).toEqual([]);
  const { of } = progress(procedure, bundle);
  const answered = new Set(allChecks(bundle).map(({ set, step, point }) => `${set} ${step} ${point}`));
  expect(answered.size).toBe(of);
});
