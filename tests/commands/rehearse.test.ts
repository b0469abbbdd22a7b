import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { rehearse } from '../../src/commands/rehearse.ts';
import { smallProcedure } from '../app/workroom.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { called } from './demo-room.ts';

test.each([{}, { plain: true }])('the saves of a file are followed on a screen only: %j', async (options) => {
  const cwd = tempFolder();
  const file = join(cwd, 'T-1.md');
  writeFileSync(file, smallProcedure);
  expect(await called((io) => rehearse(file, { ...options, watch: true }, io), cwd)).toEqual({
    code: 2,
    out: '',
    err: 'walkfoot: Only a screen can follow the saves of a file: leave --watch away, or rehearse at a terminal.\n',
  });
});
