import { inUtc } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import { type Past, stepsOf } from '../reports/past.ts';
import { stepParts, stepText } from '../reports/step-text.ts';
import type { ExitCode, Io } from './io.ts';
import { cannot, sayJson } from './io.ts';

interface TextOptions {
  readonly utc?: boolean;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** Says what a step of the one bundle in `past` said: from the text it was opened on, as that was understood when it was released. */
export async function sayStepText(past: Past, number: number, options: TextOptions, io: Io): Promise<ExitCode> {
  const [bundle] = past.bundles.values();
  const step = bundle && stepsOf(past, bundle.ticket).find((each) => each.number === number);
  if (!bundle?.text || !step) return cannot(io, `There is no step ${number}: name another.`);
  const { digest, revision } = bundle.text;
  const openedAt = options.utc && bundle.openedAt ? inUtc(bundle.openedAt) : bundle.openedAt;
  const { ticket, procedure } = bundle;
  const parts = stepParts(step);
  if (options.json) sayJson(io, { ticket, procedure, revision, digest, openedAt, step, parts });
  else if (options.csv) io.out((await import('../reports/step-text-csv.ts')).stepTextCsv(parts));
  else {
    const head = `${ticket} · ${procedure} revision ${revision} · opened ${openedAt} · text ${digest.slice(0, 12)}…`;
    io.out(`${oneLine(head)}\n\n${stepText(parts)}\n`);
  }
  return 0;
}
