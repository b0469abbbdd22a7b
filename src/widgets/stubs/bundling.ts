import { fileURLToPath } from 'node:url';
import type { BuildOptions } from 'esbuild';

/** The module that stands for what is left out of the bundle. */
export const leftOut = fileURLToPath(new URL('./left-out.ts', import.meta.url));

/** How the program is bundled, and what of it a test bundles by itself. */
export const bundling = {
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node24',
  jsx: 'automatic',
  alias: {
    // What marked-terminal loads for nothing.
    'cli-highlight': leftOut,
    'cli-table3': leftOut,
    'node-emoji': leftOut,
    'supports-hyperlinks': leftOut,
    // Ink looks for its developers' tools only when told to; they are not installed.
    'react-devtools-core': leftOut,
  },
  // Loaded only where a picture is made into pixels: one finds its compiled part from where it is installed, the other sets a
  // variable that a module may not.
  external: ['sharp', 'sixel'],
  // Some dependencies are CommonJS and ask for require.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
  logLevel: 'warning',
} satisfies BuildOptions;
