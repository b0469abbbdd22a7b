import { readEntries } from '../app/read-entries.ts';
import { keptProcedure } from '../app/understood.ts';
import type { Digest } from '../base/brand.ts';
import { formatStamp } from '../base/instant.ts';
import { emptyRoom, evolveRoom } from '../bundle/room.ts';
import { skillKey } from '../bundle/skill.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { aloneAt, lastDays, nextAt, type Operation, skillMatrix } from '../reports/skill-matrix.ts';
import { inRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson, widthOf } from './io.ts';

interface HandsOptions extends RoomOption {
  readonly skill?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** Prints hands against operations: who sews what alone, who with somebody beside, who could be trained next. */
export function hands(options: HandsOptions, io: Io): Promise<ExitCode> {
  return inRoom<ExitCode>(options, io, async ({ store }) => {
    const room = (
      await readEntries(store, { kinds: ['enrolled', 'retired', 'skilled', 'released', 'withdrawn'] })
    ).reduce(evolveRoom, emptyRoom);
    const texts = new Map<Digest, Procedure>();
    let lost: string | undefined;
    for (const { understood } of [...room.releases.values()].flat()) {
      const text = await keptProcedure(store, understood);
      if (text.ok) texts.set(understood, text.value);
      else lost ??= text.error.message;
    }
    const days = lastDays({ room, texts });
    // Bundle by bundle, so that years of answers need no more memory than one bundle.
    for (const { body } of await readEntries(store, { kinds: ['ticketed'] }))
      if ('ticket' in body) days.see(await readEntries(store, { ticket: body.ticket, kinds: ['checked'] }));
    const all = skillMatrix({ room, texts }, days);
    const { skill } = options;
    const operations = skill === undefined ? all : all.filter((each) => skillKey(each.skill) === skillKey(skill));
    if (skill !== undefined && operations.length === 0)
      return cannot(
        io,
        all.length === 0
          ? `No operation here is called ${skill}: no procedure in use asks for a skill, and no level is entered.`
          : `No operation here is called ${skill}: there are ${all.map((each) => each.skill).join(', ')}.`,
      );
    await sayOperations(operations, options, io);
    if (lost === undefined) return 0;
    cannot(io, lost);
    return 1;
  });
}

async function sayOperations(operations: readonly Operation[], { json, csv }: HandsOptions, io: Io): Promise<void> {
  if (json) sayJson(io, operations.map(asJson));
  else if (csv) io.out((await import('../reports/skill-csv.ts')).skillCsv(operations));
  else {
    const { skillReport } = await import('../reports/skill-report.ts');
    const today = formatStamp(io.clock()).slice(0, 10);
    io.out(`${skillReport(operations, today, widthOf(io)).join('\n')}\n`);
  }
}

const asJson = (operation: Operation) => ({
  skill: operation.skill,
  steps: operation.steps,
  hands: operation.hands.map(({ hand, name, level, isEntered, lastDay }) => ({
    hand,
    name,
    level: isEntered ? level : null,
    lastDay,
  })),
  alone: aloneAt(operation).map(({ hand }) => hand),
  trainNext: nextAt(operation).map(({ hand }) => hand),
});
