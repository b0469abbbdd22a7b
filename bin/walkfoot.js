#!/usr/bin/env node
// Before the first import: the development build of the screen library is slow and grows over days.
process.env.NODE_ENV ??= 'production';
await import('../dist/main.js');
