import { rm } from 'node:fs/promises';
import { build } from 'esbuild';
import { aliases, leftOut } from './src/widgets/stubs/aliases.ts';

/** Bundles the program into dist/, one chunk a command, so that a command loads only what it needs. */
await rm('dist', { recursive: true, force: true });
await build({
  entryPoints: ['src/main.ts'],
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node24',
  jsx: 'automatic',
  define: { 'process.env.NODE_ENV': '"production"' },
  // Ink looks for its developers' tools only when told to; they are not installed.
  alias: { ...aliases, 'react-devtools-core': leftOut },
  minifySyntax: true,
  legalComments: 'linked',
  logLevel: 'warning',
  // Some dependencies are CommonJS and ask for require.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});
