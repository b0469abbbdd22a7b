import type { HandId } from '../base/brand.ts';
import type { Limit } from '../measure/limit.ts';
import type { Command } from './command.ts';
import type { WantedPoint } from './next.ts';

/** What a careful hand does at a point so that it comes out good; a timed point takes two commands, and waiting between. */
export function goodAnswer({ at, point, place, clock }: WantedPoint, hand: HandId, witness: HandId): Command {
  const here = { set: at.set, step: at.step.id, point: point.id };
  if (point.kind === 'timed' && !clock) return { hand, do: 'start clock', ...here };
  const check = { hand, do: 'check', ...here, place } as const;
  switch (point.kind) {
    case 'reading':
    case 'count':
      return { ...check, typed: goodAmount(point.limit) };
    case 'choice':
      return { ...check, typed: point.options.find((option) => option.acceptable)?.text ?? '' };
    case 'written':
      return { ...check, typed: 'R-318' };
    case 'hold point':
      return { ...check, typed: '', witness };
    default:
      return { ...check, typed: '' };
  }
}

/** Milliseconds to wait at a running clock until its limit is kept. */
export function patience({ point }: WantedPoint): number {
  if (point.kind !== 'timed') return 0;
  return Number(point.limit?.low ?? 0) * { s: 1_000, min: 60_000, h: 3_600_000 }[point.unit];
}

const goodAmount = (limit: Limit | null): string => limit?.nominal ?? limit?.low ?? limit?.high ?? '7';
