import { fileURLToPath } from 'node:url';

/** The module that stands for what is left out of the bundle. */
export const leftOut = fileURLToPath(new URL('./left-out.ts', import.meta.url));

/** For the bundler's `alias`: what marked-terminal loads for nothing. */
export const aliases: Readonly<Record<string, string>> = {
  'cli-highlight': leftOut,
  'cli-table3': leftOut,
  'node-emoji': leftOut,
  'supports-hyperlinks': leftOut,
};
