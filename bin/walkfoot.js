#!/usr/bin/env node
import { enableCompileCache } from 'node:module';
import { fileURLToPath } from 'node:url';

// Before the first import: the development build of the screen library is slow and grows over days.
process.env.NODE_ENV ??= 'production';
// Beside the program, where only those may write who may change it; where nobody may, it is done without.
enableCompileCache(fileURLToPath(new URL('../dist/.compiled', import.meta.url)));
await import('../dist/main.js');
