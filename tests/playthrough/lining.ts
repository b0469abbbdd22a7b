import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const program = resolve(import.meta.dirname, '../../bin/walkfoot.js');

/** Runs a command of the bundled program to its end and answers what it printed. */
export const walkfoot = (...args: readonly string[]): string =>
  execFileSync(process.execPath, [program, ...args], { encoding: 'utf8', env: quietEnv() });

/** Without what a test runner adds, which would change how the program behaves. */
export function quietEnv(): Record<string, string> {
  const { CI: _, NODE_ENV: __, VITEST: ___, ...rest } = process.env;
  return rest as Record<string, string>;
}

/** As the practice room's README prints it. */
export const verasPin = '7305';

/** A practice room of its own for one test. */
export function practiceRoom(): { readonly folder: string; remove(): void } {
  const place = mkdtempSync(join(tmpdir(), 'walkfoot-play-'));
  const folder = join(place, 'room');
  walkfoot('demo', folder);
  // What is played here counts points; bobbins have plays of their own.
  const settings = join(folder, 'walkfoot.yaml');
  writeFileSync(settings, readFileSync(settings, 'utf8').replace('bobbin: 30 m', 'bobbin: off'));
  return { folder, remove: () => rmSync(place, { recursive: true, force: true }) };
}

interface OutlinePoint {
  readonly id: string;
  readonly kind: string;
  readonly text: string;
  readonly places: number | null;
  readonly low: string | null;
  readonly high: string | null;
  readonly nominal: string | null;
  readonly options: readonly { readonly text: string; readonly acceptable: boolean }[] | null;
}
interface OutlineStep {
  readonly number: number;
  readonly title: string;
  readonly facts: { readonly scope: 'bundle' | 'set'; readonly needsSkill: string | null };
  readonly cautions: readonly { readonly word: string }[];
  readonly points: readonly OutlinePoint[];
}

/** One blank to be filled, in the order of the work, with a good answer. */
export interface Blank {
  readonly set: number | null;
  readonly step: number;
  readonly title: string;
  readonly kind: string;
  readonly point: string;
  readonly place: number;
  /** What is typed; empty for a tick or what the program works out, the second person's name for a hold point. */
  readonly answer: string;
  /** Cautions that stand before it, when it is the first of its step in this bundle. */
  readonly cautions: number;
  /** What its step asks for, and whether it is the first of the step in this set. */
  readonly skill: string | null;
  readonly isFirst: boolean;
}

/** The blanks of the lining for two sets, read from what `outline` prints: steps for the bundle first, then set by set. */
export function blanksOf(folder: string): readonly Blank[] {
  const { steps } = JSON.parse(walkfoot('outline', join(folder, 'procedures/LIN-2207.md'), '--json')) as {
    readonly steps: readonly OutlineStep[];
  };
  const forBundle = steps.filter(({ facts }) => facts.scope === 'bundle');
  const forSets = steps.filter(({ facts }) => facts.scope === 'set');
  const order = [
    ...forBundle.map((step) => ({ step, set: null, first: true })),
    ...[1, 2].flatMap((set) => forSets.map((step) => ({ step, set, first: set === 1 }))),
  ];
  return order.flatMap(({ step, set, first }) =>
    step.points.flatMap((point, index) =>
      Array.from({ length: point.places ?? 1 }, (_, place) => ({
        set,
        step: step.number,
        title: step.title,
        kind: point.kind,
        point: point.text,
        place: place + 1,
        answer: answerTo(point, `${set ?? 'bundle'} ${place}`),
        skill: step.facts.needsSkill,
        isFirst: index === 0 && place === 0,
        cautions: first && index === 0 && place === 0 ? step.cautions.length : 0,
      })),
    ),
  );
}

function answerTo(point: OutlinePoint, salt: string): string {
  switch (point.kind) {
    case 'reading':
    case 'count':
      return point.nominal ?? point.high ?? point.low ?? '620';
    case 'choice':
      return String(1 + (point.options ?? []).findIndex((option) => option.acceptable));
    case 'written':
      return `R-${salt.length}${salt.at(-1)}`;
    case 'hold point':
      return 'Vera';
    default:
      return '';
  }
}

/** What is typed at a blank, line by line: its cautions read, the answer, and under a hold point the PIN. */
export const linesOf = (blank: Blank, answer = blank.answer): readonly string[] => [
  ...Array.from({ length: blank.cautions }, () => ''),
  answer,
  ...(blank.kind === 'hold point' ? [verasPin] : []),
];

export interface WhoRow {
  readonly kind: string;
  readonly set: number | null;
  readonly step: number | null;
  readonly point: string | null;
  readonly place: number | null;
  readonly name: string;
  readonly at: string;
  readonly typed: string | null;
  readonly value: string | null;
  readonly verdict: string | null;
  readonly witness: string | null;
  readonly meaning: string | null;
}

export const who = (folder: string, ticket: string): readonly WhoRow[] =>
  JSON.parse(walkfoot('who', ticket, '--room', folder, '--json')) as readonly WhoRow[];

/** What `who` must say of one answered blank. */
export const asRow = (blank: Blank, answer = blank.answer): Partial<WhoRow> => ({
  set: blank.set,
  step: blank.step,
  point: blank.point,
  place: blank.place,
  name: 'Ines',
  typed: blank.kind === 'hold point' ? '' : answer,
  witness: blank.kind === 'hold point' ? 'Vera' : null,
});
