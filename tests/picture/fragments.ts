import { readdirSync, readFileSync } from 'node:fs';

/** Every picture of the demo procedures: the name of its drawing, and what it brings out. */
export function fragments(): readonly (readonly [string, readonly string[]])[] {
  return readdirSync('procedures')
    .filter((file) => /^[A-Z].*\d\.md$/.test(file))
    .flatMap((file) => [...readFileSync(`procedures/${file}`, 'utf8').matchAll(/media\/(\w+)\.svg#([^)]+)\)/g)])
    .map(([, name = '', ids = '']) => [name, ids.split(',')] as const);
}
