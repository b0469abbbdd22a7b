import type { UnitId } from '../measure/unit.ts';
import { zeroDividers } from './divides-by-zero.ts';
import { namesIn } from './evaluate.ts';
import { formulaUnit } from './formula-unit.ts';
import { nearest } from './nearest.ts';
import type { PointDraft } from './point-draft.ts';
import type { StepFacts } from './procedure.ts';
import type { Reading } from './reading.ts';

/** A point with the scope of its step, in the order of the file. */
export interface ScopedPoint {
  readonly draft: PointDraft;
  readonly scope: StepFacts['scope'];
}

interface Named extends ScopedPoint {
  readonly order: number;
}

/** Notes names given twice and formulas that cannot be worked out when their turn comes. */
export function checkFormulas(points: readonly ScopedPoint[], reading: Reading): void {
  const named = new Map<string, Named>();
  for (const [order, point] of points.entries()) {
    const { name } = point.draft;
    if (name === null) continue;
    if (named.has(name.text)) {
      const message = `The name ${name.text} is given to two points.`;
      reading.note({
        rule: 'name-twice',
        at: name.at,
        message,
        found: name.text,
        mend: 'Give each reading its own name.',
      });
    } else named.set(name.text, { ...point, order });
  }
  const units = new Map(
    [...named].flatMap(([name, { draft }]): [string, UnitId][] =>
      'unit' in draft.point ? [[name, draft.point.unit]] : [],
    ),
  );
  const zero = zeroDividers();
  for (const [order, point] of points.entries()) {
    const { draft } = point;
    const name = draft.name?.text ?? null;
    if (draft.point.kind !== 'computed') {
      if (name !== null) zero.measured(name);
      continue;
    }
    if (zero.divides(draft.point.formula, name))
      reading.note({
        rule: 'division-by-zero',
        at: draft.formulaAt?.(0) ?? draft.at,
        message: 'This formula divides by zero, whatever is measured, and never has an answer.',
        found: draft.formulaText,
        mend: 'Divide by something that is measured.',
      });
    const wrong = namesIn(draft.point.formula).filter((name) => !checkName(name, { ...point, order }, named, reading));
    if (wrong.length === 0) checkUnits(draft, units, reading);
  }
}

function checkName(name: string, user: Named, named: ReadonlyMap<string, Named>, { note }: Reading): boolean {
  const at = placeOfName(user.draft, name);
  const say = (rule: string, message: string, mend: string): false => {
    note({ rule, at, message, found: name, mend });
    return false;
  };
  const giver = named.get(name);
  if (giver === undefined) {
    const near = nearest(name, [...named.keys()]);
    const mend = near
      ? `Write ${near}, or name a reading \`${name}\` before its blank.`
      : `Name a reading \`${name}\` just before its blank.`;
    return say('name-unknown', `No reading has the name ${name}.`, mend);
  }
  if (leadsBack(name, user.draft, named)) {
    return say(
      'name-circle',
      `This value is computed from ${name}, which is computed from this value.`,
      'Compute one of them from readings alone.',
    );
  }
  const { point } = giver.draft;
  if (!('unit' in point))
    return say('name-not-a-number', `${name} is not a number.`, 'Use the name of a reading, a count or a time.');
  if (giver.order >= user.order) {
    return say(
      'name-later',
      `${name} is measured only after this point.`,
      'Move this point behind the reading it needs.',
    );
  }
  if ('places' in point && point.places > 1) {
    return say(
      'name-several-places',
      `${name} is measured in ${point.places} places, so it has no single value.`,
      'Give each place a point and a name of its own.',
    );
  }
  if (user.scope === 'bundle' && giver.scope === 'set') {
    return say(
      'name-of-a-set',
      `${name} is measured on each set, but this point is done once for the whole bundle.`,
      'Put both into steps for the whole bundle, or both into steps for each set.',
    );
  }
  return true;
}

/** Whether following the formulas from a name comes back to the point it started from. */
function leadsBack(start: string, to: PointDraft, named: ReadonlyMap<string, Named>): boolean {
  const seen = new Set<string>();
  const waiting = [start];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (seen.has(name)) continue;
    seen.add(name);
    const draft = named.get(name)?.draft;
    if (draft === to) return true;
    if (draft?.point.kind === 'computed') waiting.push(...namesIn(draft.point.formula));
  }
  return false;
}

function checkUnits(draft: PointDraft, units: ReadonlyMap<string, UnitId>, { note }: Reading): void {
  if (draft.point.kind !== 'computed') return;
  const unit = formulaUnit(draft.point.formula, units);
  const at = draft.formulaAt?.(0) ?? draft.at;
  const found = draft.formulaText;
  if (!unit.ok) {
    note({ rule: unit.error.rule, at, message: unit.error.message, found, mend: 'Take all its readings in one unit.' });
  } else if (unit.value !== 'any' && unit.value !== draft.point.unit) {
    const message = `This formula comes out in ${unit.value}, but its blank has the unit ${draft.point.unit}.`;
    note({ rule: 'formula-units', at, message, found, mend: `Write ${unit.value} behind the blank.` });
  }
}

function placeOfName(draft: PointDraft, name: string): number {
  const places = [...draft.formulaText.matchAll(/\d+(?:[.,]\d+)*|\p{L}[\p{L}\p{N}_]*/gu)];
  const index = places.find((found) => found[0] === name)?.index ?? 0;
  return draft.formulaAt?.(index) ?? draft.at;
}
