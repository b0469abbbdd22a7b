import { keptProcedure } from '../app/understood.ts';
import { inUtc } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import type { Bundle } from '../bundle/bundle.ts';
import { nameOf, releaseOf } from '../bundle/room.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { type Past, stepsOf } from '../reports/past.ts';
import { type StepPart, stepParts, stepText } from '../reports/step-text.ts';
import type { ExitCode, Io } from './io.ts';
import { cannot, sayJson } from './io.ts';

interface TextOptions {
  readonly utc?: boolean;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** Says what a step of the one bundle in `past` said: from the text it was opened on, as that was understood when it was released. */
export async function sayStepText(
  past: Past,
  number: number,
  { store, ...options }: TextOptions & { readonly store: LedgerStore },
  io: Io,
): Promise<ExitCode> {
  const [bundle] = past.bundles.values();
  const step = bundle && stepsOf(past, bundle.ticket).find((each) => each.number === number);
  if (!bundle?.text || !step) return cannot(io, `There is no step ${number}: name another.`);
  const { digest, revision } = bundle.text;
  const openedAt = options.utc && bundle.openedAt ? inUtc(bundle.openedAt) : bundle.openedAt;
  const { ticket, procedure } = bundle;
  const parts = stepParts(step);
  const others = await inOtherWords(past, bundle, step.number, store);
  if (options.json) sayJson(io, { ticket, procedure, revision, digest, openedAt, step, parts, sheets: others });
  else if (options.csv) io.out((await import('../reports/step-text-csv.ts')).stepTextCsv(parts));
  else {
    const head = `${ticket} · ${procedure} revision ${revision} · opened ${openedAt} · text ${digest.slice(0, 12)}…`;
    io.out(`${oneLine(head)}\n\n${stepText(parts)}\n`);
    for (const { language, hands, parts: words } of others)
      io.out(`\n${oneLine(`${hands.join(', ')} read it in ${language}`)}\n\n${stepText(words)}\n`);
  }
  return 0;
}

/** The sheets in other languages that were on the screen at this step, and for whom. */
async function inOtherWords(
  { entries, room }: Past,
  bundle: Bundle,
  number: number,
  store: LedgerStore,
): Promise<
  readonly { readonly language: string; readonly hands: readonly string[]; readonly parts: readonly StepPart[] }[]
> {
  const found = [];
  for (const { language, digest, understood } of releaseOf(room, bundle)?.sheets ?? []) {
    const text = await keptProcedure(store, understood);
    const step = text.ok ? text.value.steps.find((each) => each.number === number) : undefined;
    const readers = entries.filter(({ body }) => 'sheet' in body && body.sheet === digest && body.step === step?.id);
    const hands = [...new Set(readers.map(({ hand }) => nameOf(room, hand)))];
    if (step && hands.length > 0) found.push({ language, hands, parts: stepParts(step) });
  }
  return found;
}
