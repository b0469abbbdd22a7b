#!/usr/bin/env node
import * as module from 'node:module';
import { fileURLToPath } from 'node:url';

if (Number(process.versions.node.split('.')[0]) < 24) {
  process.stderr.write(
    `walkfoot: This is Node ${process.versions.node} and 24 is needed: in a clone, use \`npm run -s walkfoot -- …\`.\n`,
  );
  process.exitCode = 2;
} else {
  // Before the first import: the development build of the screen library is slow and grows over days.
  process.env.NODE_ENV ??= 'production';
  // Beside the program, where only those may write who may change it; where nobody may, it is done without.
  module.enableCompileCache(fileURLToPath(new URL('../dist/.compiled', import.meta.url)));
  await import('../dist/main.js');
}
