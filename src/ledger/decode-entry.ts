import * as z from 'zod/mini';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { canonicalText } from './canonical.ts';
import type { Entry, Json } from './entry.ts';

/**
 * Reads one ledger line. Refuses whatever `sealEntry` would not have written: other members, a stamp that is no RFC 3339
 * date-time, a text that differs by a single byte from its own canonical form. Never throws. The body's own shape belongs
 * to whoever knows the kind.
 */
export function decodeEntry(text: string): Result<Entry> {
  const json = parse(text);
  if (!json.ok) return json;
  const shape = EntryShape.safeParse(json.value);
  if (!shape.success) return refuse('entry-shape', `This is no ledger entry: ${firstProblem(shape.error)}.`);
  if (!isCanonical(text, json.value)) {
    return refuse(
      'entry-canonical',
      'This ledger entry is not written in its canonical form, so somebody else wrote or changed it.',
    );
  }
  return ok(shape.data);
}

// The body is handed on as parsed: rebuilding it by a schema would drop members such as `__proto__` that are part of the bytes.
const EntryShape = z.strictObject({
  v: z.literal(1),
  station: z.string().check(z.minLength(1)),
  seq: z.int().check(z.nonnegative()),
  at: z.string().check(z.refine((at) => parseStamp(at) !== undefined, 'is no RFC 3339 date and time')),
  hand: z.string(),
  kind: z.string().check(z.minLength(1)),
  body: z.custom<Entry['body']>(
    (body) => typeof body === 'object' && body !== null && !Array.isArray(body),
    'is no object',
  ),
});

function parse(text: string): Result<Json> {
  try {
    return ok(JSON.parse(text) as Json);
  } catch {
    return refuse('entry-json', 'This is no ledger entry: it is not JSON.');
  }
}

/**
 * JSON.stringify writes numbers and strings as RFC 8785 does, and members in the order they were read: where it gives the text back,
 * only their order and lone surrogates are left to be looked at. The library, which takes five times as long, has the last word.
 */
function isCanonical(text: string, value: Json): boolean {
  try {
    if (!text.includes('\\ud') && JSON.stringify(value) === text && isSorted(value)) return true;
    return canonicalText(value) === text;
  } catch {
    // Text from outside may hold what has no canonical form, or be nested deeper than the stack: here that is an answer, not a bug.
    return false;
  }
}

/** Whether the members of every object in it stand in order of their UTF-16 code units. */
function isSorted(value: Json): boolean {
  if (typeof value !== 'object' || value === null) return true;
  if (Array.isArray(value)) return value.every(isSorted);
  let before: string | undefined;
  for (const [name, member] of Object.entries(value)) {
    if ((before !== undefined && name <= before) || !isSorted(member)) return false;
    before = name;
  }
  return true;
}

function firstProblem(error: z.core.$ZodError): string {
  const issue = error.issues[0];
  if (!issue) return 'its shape is wrong';
  const where = issue.path.length > 0 ? `${issue.path.join('.')} ` : '';
  return `${where}${issue.message.replace(/\.$/, '')}`;
}
