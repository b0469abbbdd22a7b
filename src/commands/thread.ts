import { assertNever } from '../base/assert-never.ts';
import { type Place, route } from '../bundle/route.ts';
import { measurable } from '../drawing/measurable.ts';
import { toDecimal } from '../measure/decimal.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { bundleSum, type ThreadPlan, threadReport } from '../reports/thread-report.ts';
import { roomThread } from '../storage/thread-settings.ts';
import { bobbinChanges } from '../thread/bobbin-changes.ts';
import { procedureThread } from '../thread/procedure-thread.ts';
import { bobbinOf, loopersOf, type StepThread } from '../thread/step-thread.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, proseWidthOf, sayJson } from './io.ts';
import { printableText } from './printable-text.ts';

interface ThreadOptions extends RoomOption {
  readonly sets?: string;
  readonly json?: boolean;
}

/**
 * Needle and bobbin thread of a procedure, step by step, and where bobbins change: of the revision in use, or of the draft where a file is
 * named. Exit 1 when something of it could not be reckoned.
 */
export function thread(typed: string, options: ThreadOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async (open) => {
    const found = await printableText(typed, 'en', open);
    switch (found.outcome) {
      case 'refused':
        return cannot(io, found.refusal.message);
      case 'errors':
        io.err(findingsReport(found.findings, new Map([[found.file.name, found.file.text]])));
        return cannot(io, `Mend the errors in ${found.file.name} first.`);
      case 'text': {
        const { procedure, text, pictures } = found.text;
        const sets = options.sets === undefined ? procedure.sets : wholeNumber(options.sets);
        if (sets === undefined || sets < 1 || sets > MOST_SETS)
          return cannot(io, `Sets are a whole number from 1 to ${MOST_SETS}, such as --sets 2.`);
        const name = `${procedure.id} ${text.release === null ? 'draft' : `revision ${text.release.revision}`}`;
        const told = reckon(name, procedure, sets, pictures, roomThread(open.room.settings));
        if (options.json) sayJson(io, asData(told, procedure));
        else io.out(`${threadReport(told, proseWidthOf(io)).join('\n')}\n`);
        return told.unread.length > 0 || told.steps.some(({ unknown }) => unknown.length > 0) ? 1 : 0;
      }
      default:
        return assertNever(found);
    }
  });
}

const MOST_SETS = 1000;

/** Figures only: nobody means 16 sets by 0x10. */
const wholeNumber = (text: string): number | undefined => (/^\d{1,4}$/.test(text.trim()) ? Number(text) : undefined);

function reckon(
  name: string,
  procedure: Procedure,
  sets: number,
  pictures: ReadonlyMap<string, Uint8Array>,
  room: ThreadPlan['room'],
): ThreadPlan {
  const { drawings, others } = measurable(pictures);
  const unread = others.map(({ address, why }) => `${address} cannot be measured: ${why}`);
  const steps = procedureThread(procedure, drawings, room);
  return { name, sets, steps, room, unread, changes: changesOf(procedure, sets, steps, room) };
}

function changesOf(
  procedure: Procedure,
  sets: number,
  steps: ThreadPlan['steps'],
  { bobbin }: ThreadPlan['room'],
): ThreadPlan['changes'] {
  if (bobbin === null) return null;
  const takes = new Map(steps.map((each) => [each.step, bobbinOf(each)]));
  const places = route(
    procedure,
    Array.from({ length: sets }, (_, at) => at + 1),
  );
  const work = places.flatMap((place: Place) => {
    const under = takes.get(place.step);
    return under ? [{ place, stretch: procedure.work === 'set by set' ? place.set : null, takes: under }] : [];
  });
  return bobbinChanges(work, bobbin, bobbin).changes;
}

/** For programs: every length in mm, as a decimal string. */
function asData({ name, sets, steps, room, changes, unread }: ThreadPlan, { id }: Procedure) {
  const spelled = (of: Pick<StepThread, 'thread' | 'under'>) => ({
    needle: toDecimal(of.thread.needle),
    bobbin: toDecimal(bobbinOf(of)),
    loopers: toDecimal(loopersOf(of)),
  });
  return {
    procedure: id,
    name,
    sets,
    waste: toDecimal(room.waste),
    bobbin: room.bobbin === null ? null : toDecimal(room.bobbin),
    steps: steps.map((each) => ({
      step: each.step.number,
      id: each.step.id,
      scope: each.step.facts.scope,
      stitch: each.step.facts.seams?.stitch ?? null,
      stitchLength: each.step.facts.seams?.stitchLength ?? null,
      thickness: each.step.facts.seams?.thickness ?? null,
      length: toDecimal(each.length),
      ...spelled(each),
      seams: each.seams.map(({ id, length, thread }) => ({
        id,
        length: toDecimal(length),
        ...spelled({ thread, under: each.under }),
      })),
      unknown: each.unknown,
    })),
    bundle: {
      needle: toDecimal(bundleSum(steps, sets, ({ thread }) => thread.needle)),
      bobbin: toDecimal(bundleSum(steps, sets, bobbinOf)),
      loopers: toDecimal(bundleSum(steps, sets, loopersOf)),
    },
    changes:
      changes?.map(({ place, because, bobbins, left, takes }) => ({
        set: place.set,
        step: place.step.number,
        because: because === 'stretch' ? 'set' : because,
        bobbins,
        left: toDecimal(left),
        takes: toDecimal(takes),
      })) ?? null,
    unread,
  };
}
