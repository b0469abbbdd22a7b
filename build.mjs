import { rm } from 'node:fs/promises';
import { build } from 'esbuild';
import { aliases, leftOut } from './src/widgets/stubs/aliases.ts';

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
  minifyWhitespace: true,

  plugins: [withoutSubprocesses],
  legalComments: 'linked',
  logLevel: 'warning',
  // Some dependencies are CommonJS and ask for require.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});
