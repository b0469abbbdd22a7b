import type { Digest } from '../../../src/base/brand.ts';
import type { Procedure } from '../../../src/procedure/procedure.ts';
import { readProcedure } from '../../../src/procedure/read-procedure.ts';
import type { OnTicket, PaperWords, SheetMatter } from '../../../src/reports/paper/sheet-matter.ts';
import { inEnglish } from '../../../src/words/say.ts';
import { vera, type World, worldOf } from '../../bundle/world.ts';

/** What a paper says in English. */
export const english: PaperWords = { language: 'en', say: inEnglish };

/** What a sheet of this text is made of, on revision B and without a ticket unless told. */
export function matterOf(procedure: Procedure, rest: Partial<SheetMatter> = {}): SheetMatter {
  const digest = 'ab12'.repeat(16) as Digest;
  return {
    procedure,
    ...english,
    text: {
      digest,
      sheet: null,
      release: { revision: 'B', by: vera, at: '2026-11-24T09:00:00.000+01:00', withdrawn: null },
    },
    room: worldOf(procedure).room,
    ticket: null,
    pictures: new Map(),
    paper: 'A4',
    at: '2026-11-25T10:42:00.000+01:00',
    ...rest,
  };
}

/** The bundle of a story as paper sees it. */
export function onTicket({ bundle }: World, copy = 0): OnTicket {
  if (!bundle) throw new Error('the story has no bundle');
  return { bundle, copy };
}

/** The same, with the room as it is at the end of the story. */
export const forTicket = (world: World, copy = 0): Partial<SheetMatter> => ({
  ticket: onTicket(world, copy),
  room: world.room,
});

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
