import { rm } from 'node:fs/promises';
import { build } from 'esbuild';
import { aliases } from './src/widgets/stubs/aliases.ts';

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
  alias: aliases,
  minifySyntax: true,
  legalComments: 'linked',
  logLevel: 'warning',
  // Some dependencies are CommonJS and ask for require.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});
