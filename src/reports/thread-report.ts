import type Fraction from 'fraction.js';
import { stitchesSaid } from '../app/seam-words.ts';
import { assertNever } from '../base/assert-never.ts';
import { many } from '../base/many.ts';
import { wrap } from '../base/text.ts';
import type { Place } from '../bundle/route.ts';
import { toDecimalAt, toFixedDecimal } from '../measure/decimal.ts';
import type { BobbinChange } from '../thread/bobbin-changes.ts';
import type { RoomThread } from '../thread/room-thread.ts';
import { bobbinOf, loopersOf, type StepThread, total } from '../thread/step-thread.ts';
import { table } from './table.ts';

/** The thread of a procedure, and where its bobbins change. */
export interface ThreadPlan {
  /** `LIN-2207 revision C`. */
  readonly name: string;
  readonly sets: number;
  readonly steps: readonly StepThread[];
  readonly room: RoomThread;
  /** Null where the room does not reckon with bobbins. */
  readonly changes: readonly BobbinChange<Place>[] | null;
  /** What the pictures leave unknown, as sentences. */
  readonly unread: readonly string[];
}

/** The table and its sentences, at most `width` columns wide. */
export function threadReport(of: ThreadPlan, width: number): readonly string[] {
  const { steps, sets } = of;
  if (steps.length === 0) return [`No step of ${of.name} names seams, so there is no thread to reckon.`, ...of.unread];
  const once = steps.filter(({ step }) => step.facts.scope === 'bundle');
  const perSet = steps.filter(({ step }) => step.facts.scope === 'set');
  // What is in no sum makes each sum it is missing from too small.
  const atLeast = (summed: readonly StepThread[]): string => (summed.some(isPartly) ? ', at least' : '');
  const columns = columnsOf(steps);
  const shown = [
    ...steps.map((each) => [
      `${each.step.number} ${each.step.title}${isUnknown(each) ? '' : atLeast([each])}`,
      ...columns.map(({ of: amount, say }) => (isUnknown(each) ? '?' : say(amount(each)))),
    ]),
    [`A set${atLeast(perSet)}`, ...columns.map(({ of: amount, say }) => say(total(perSet.map(amount))))],
    [
      `A bundle of ${sets === 1 ? 'one set' : `${sets} sets`}${atLeast(steps)}`,
      ...columns.map(({ of: amount, say }) => say(bundleSum(steps, sets, amount))),
    ],
  ];
  const unknown = [...of.unread, ...steps.flatMap((step) => step.unknown)];
  return [
    ...wrap(`${of.name}: thread by the seams of its drawings, ${decimal(of.room.waste)} % waste on top.`, width),
    ...reckonedBy(of).flatMap((line) => wrap(line, width)),
    '',
    ...table([{ name: 'step', align: 'left' }, ...columns], shown, width),
    ...(once.length > 0 ? wrap('What is sewn once for the bundle is in its sum, not in that of a set.', width) : []),
    '',
    ...changesSaid(of).flatMap((line) => wrap(line, width)),
    ...(unknown.length > 0 ? ['', 'In no sum:', ...unknown.flatMap((line) => wrap(`- ${line}`, width))] : []),
  ];
}

/** Loopers have a column where a stitch has any. */
const columnsOf = (steps: readonly StepThread[]) => [
  { name: 'seams mm', align: 'right' as const, say: (mm: Fraction) => toDecimalAt(mm, 0), of: lengthOf },
  { name: 'needle m', align: 'right' as const, say: metres, of: ({ thread }: StepThread) => thread.needle },
  { name: 'bobbin m', align: 'right' as const, say: metres, of: bobbinOf },
  ...(steps.some((each) => loopersOf(each).gt(0))
    ? [{ name: 'loopers m', align: 'right' as const, say: metres, of: loopersOf }]
    : []),
];

const lengthOf = ({ length }: StepThread): Fraction => length;
const isPartly = ({ unknown }: StepThread): boolean => unknown.length > 0;
const isUnknown = (each: StepThread): boolean => isPartly(each) && each.seams.length === 0;

export const bundleSum = (steps: readonly StepThread[], sets: number, of: (step: StepThread) => Fraction): Fraction =>
  total(steps.map((each) => (each.step.facts.scope === 'bundle' ? of(each) : of(each).mul(sets))));

/** By what each stitch type is reckoned, once. */
function reckonedBy({ steps, room }: ThreadPlan): readonly string[] {
  const said = steps.flatMap(({ step: { facts } }) => {
    const { stitch, stitchLength, thickness } = facts.seams ?? {};
    if (!stitch) return [];
    if (stitch === '301' && stitchLength && thickness !== undefined)
      return [
        `301 at ${stitchLength} mm (${stitchesSaid(stitchLength)}) through ${thickness} mm: 2 + 2·T/L, half on the bobbin.`,
      ];
    const kept = room.ratios.get(stitch.slice(0, 3));
    return kept
      ? [`${stitch}: ${decimal(kept.ratio)} to 1, needle ${decimal(kept.needleShare)} %; ${kept.source}.`]
      : [];
  });
  return [...new Set(said)];
}

function changesSaid({ room: { bobbin }, changes, sets, steps }: ThreadPlan): readonly string[] {
  if (bobbin === null || changes === null)
    return ['The room does not say what a bobbin holds: write bobbin: 30 m, say, into walkfoot.yaml under settings.'];
  const count = changes.reduce((sum, { bobbins }) => sum + bobbins, 1);
  return [
    `Bobbins of ${metres(bobbin)} m: ${steps.some(isPartly) ? 'at least ' : ''}${count} for ${sets === 1 ? 'the set' : `${sets} sets`}.`,
    ...changes.map(changeSaid),
  ];
}

function changeSaid({ place, because, bobbins, left, takes }: BobbinChange<Place>): string {
  const at = `${place.set === null ? '' : `set ${place.set}, `}step ${place.step.number}`;
  switch (because) {
    case 'stretch':
      return `Change before ${at}: ${metres(left)} m left, and the set takes ${metres(takes)} m.`;
    case 'step':
      return `Change before ${at}: ${metres(left)} m left, and the step takes ${metres(takes)} m.`;
    case 'within':
      return `Change between two seams of ${at}, ${many(bobbins, 'time')}: the step takes ${metres(takes)} m.`;
    default:
      return assertNever(because);
  }
}

/** One place, as on the room's tape. */
const metres = (mm: Fraction): string => toFixedDecimal(mm.div(1000), 1);
const decimal = (number: Fraction): string => toDecimalAt(number, 3);
