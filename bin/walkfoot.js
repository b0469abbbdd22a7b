#!/usr/bin/env node
import { enableCompileCache } from 'node:module';

// Before the first import: the development build of the screen library is slow and grows over days.
process.env.NODE_ENV ??= 'production';
enableCompileCache();
await import('../dist/main.js');
