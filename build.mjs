import { rm } from 'node:fs/promises';
import { build } from 'esbuild';
import { bundling, leftOut } from './src/widgets/stubs/bundling.ts';

/** The command line's parser can start other programs as commands, which ours never does; loading the means would cost every command. */
const withoutSubprocesses = {
  name: 'without-subprocesses',
  setup: (bundle) =>
    bundle.onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      importer.includes('/commander/') ? { path: leftOut } : undefined,
    ),
};

/** Bundles the program into dist/, one chunk a command, so that a command loads only what it needs. */
await rm('dist', { recursive: true, force: true });
await build({
  ...bundling,
  entryPoints: ['src/main.ts'],
  outdir: 'dist',
  splitting: true,
  define: { 'process.env.NODE_ENV': '"production"' },
  minifySyntax: true,
  minifyWhitespace: true,
  plugins: [withoutSubprocesses],
  legalComments: 'linked',
});
