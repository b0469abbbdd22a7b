import { keptProcedure } from '../app/understood.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { sameName } from '../bundle/same-name.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Step } from '../procedure/procedure.ts';
import { passedOperation } from '../reports/passed-operation.ts';
import type { Past } from '../reports/past.ts';
import type { WhoRow } from '../reports/who.ts';
import type { Question } from './who-question.ts';
import { within } from './who-step.ts';

/** Who passed an operation of these revisions; refuses an operation that they do not have, whether or not anything was sewn on them. */
export async function whoPassed(
  rows: readonly WhoRow[],
  past: Past,
  { sewn, operation }: Extract<Question, { readonly ask: 'who passed' }>,
  store: LedgerStore,
): Promise<Result<readonly WhoRow[]>> {
  const steps: Step[] = [];
  for (const { understood } of sewn.releases) {
    const text = await keptProcedure(store, understood);
    if (!text.ok) return text;
    steps.push(...text.value.steps);
  }
  const { procedure, revision } = sewn;
  const named = revision === null ? procedure : `${procedure} revision ${revision}`;
  if ('step' in operation) {
    const there = within(operation.step, steps.length, `${named} has`);
    if (!there.ok) return there;
  } else if (!steps.some(({ facts }) => needs(facts.needsSkill, operation.skill))) {
    return refuse('skill-unknown', noSuchSkill(named, operation.skill, steps));
  }
  const isMeant = (step: Step): boolean =>
    'step' in operation ? step.number === operation.step : needs(step.facts.needsSkill, operation.skill);
  const passed = passedOperation(rows, past, isMeant);
  return ok(passed.filter((row) => revision === null || row.revision === revision));
}

const needs = (needed: string | null, skill: string): boolean => needed !== null && sameName(needed, skill);

function noSuchSkill(named: string, skill: string, steps: readonly Step[]): string {
  const skills = [...new Set(steps.flatMap(({ facts }) => facts.needsSkill ?? []))];
  return skills.length === 0
    ? `No step of ${named} needs a skill: name the operation with --step.`
    : `No step of ${named} needs the skill ${skill}: there are ${skills.join(', ')}.`;
}
