import type { Digest } from '../../../src/base/brand.ts';
import type { Procedure } from '../../../src/procedure/procedure.ts';
import { readProcedure } from '../../../src/procedure/read-procedure.ts';
import type { SheetMatter } from '../../../src/reports/paper/sheet-matter.ts';
import type { World } from '../../bundle/world.ts';

/** What a sheet of this text is made of, on revision B and without a ticket unless told. */
export function matterOf(procedure: Procedure, rest: Partial<SheetMatter> = {}): SheetMatter {
  const digest = 'ab12'.repeat(16) as Digest;
  return {
    procedure,
    text: { revision: 'B', digest },
    ticket: null,
    pictures: new Map(),
    paper: 'A4',
    at: '2026-11-25T10:42:00.000+01:00',
    ...rest,
  };
}

/** The bundle of a story as paper sees it. */
export function onTicket({ bundle, room }: World, copy = 0) {
  if (!bundle) throw new Error('the story has no bundle');
  return { bundle, room, copy };
}

/** A procedure as it is written; it must have no errors. */
export function written(markdown: string): Procedure {
  const { procedure, findings } = readProcedure(markdown, 'p.md');
  const errors = findings.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(JSON.stringify(errors));
  return procedure;
}

/** The words of a page without its markup, spaces drawn together. */
export const wordsOf = (page: string): string =>
  page
    .replace(/<style>.*?<\/style>|<title>.*?<\/title>/gs, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
    .replace(/\s+/g, ' ');
