import * as z from 'zod/mini';
import type { Digest, HandId, PointId, ProcedureId, StepId, TicketId } from '../base/brand.ts';
import { languages } from '../base/language.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { meanings } from './meaning.ts';
import { levels } from './skill.ts';

/** A non-empty string with a meaning of its own; the ledger's reader is the place that checks it. */
const named = <T extends string>() => z.custom<T>((value) => typeof value === 'string' && value !== '');

const ticket = named<TicketId>();
const hand = named<HandId>();
const step = named<StepId>();
const point = named<PointId>();
const procedure = named<ProcedureId>();
const digest = z.custom<Digest>((value) => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value));
const words = z.string().check(z.minLength(1));
/** Counts from 1; null where the step is for the whole bundle. */
const set = z.nullable(z.int().check(z.positive()));
const count = z.int().check(z.nonnegative());
const millimetres = z.string().check(z.regex(/^\d{1,8}(?:\.\d{1,6})?$/));
/** What every entry of a bundle after its ticket says of its place in it. */
const inBundle = {
  ticket,
  /** Counts the bundle's entries from 1, so that none can be left out of what is shown of it. */
  nth: z.int().check(z.positive()),
  /** Seconds by which the station's clock stood before the bundle's entry before this one. */
  clockBack: z.optional(z.number().check(z.positive())),
  /** It was written on paper first: when it was done, as the paper says, and who typed it in. */
  paper: z.optional(z.strictObject({ doneAt: z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}T/)), by: hand })),
};
/** There when whoever answers for the entry proved with their PIN that it is them: its hand, or the witness of a hold point. */
const signed = z.optional(z.literal(true));
const hex = z.string().check(z.regex(/^(?:[0-9a-f]{2}){16,64}$/));
/** Bounds keep a ledger that somebody else wrote from asking for more memory or time than a PIN is worth. */
const powerOfTwo = z.int().check(z.refine((n) => n >= 2 && n <= 2 ** 17 && Number.isInteger(Math.log2(n))));
const cost = (most: number) => z.int().check(z.positive(), z.maximum(most));

export const roles = ['sewer', 'supervisor', 'auditor'] as const;
export type Role = (typeof roles)[number];

/** What is printed with a ticket's code on it: a label for the bundle, or its procedure as a form. */
export const papers = ['label', 'sheet'] as const;
export type Paper = (typeof papers)[number];

const verdicts = ['within', 'below', 'above', 'unacceptable', 'not judged'] as const;

const settling = z.discriminatedUnion('as', [
  /** Back to a step: what was checked in the steps `again` (of that set, or for the whole bundle) is asked again. */
  z.strictObject({ as: z.literal('rework'), step, again: z.array(step) }),
  /** `kit`: the piece of the kit that it was cut anew for, itself or through others; older entries do not say, nor those of a text without a kit. */
  z.strictObject({
    as: z.literal('recut'),
    piece: words,
    kit: z.optional(words),
    newPiece: words,
    roll: z.optional(words),
    step,
    again: z.array(step),
  }),
  /** Good to use although it is not to the letter, within a limit in words and until a day (RFC 3339 full-date). */
  z.strictObject({
    as: z.literal('concession'),
    name: words,
    limit: words,
    expires: z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/)),
  }),
  z.strictObject({ as: z.literal('scrap'), set: z.int().check(z.positive()) }),
]);
/** How a hold was ended. */
export type Settling = Frozen<z.infer<typeof settling>>;

/** The shape of each kind of entry's body: what happened, in the past tense. */
const bodies = {
  enrolled: z.strictObject({
    hand,
    name: words,
    role: z.enum(roles),
    badge: z.optional(words),
    language: z.optional(z.enum(languages)),
    signed,
  }),
  /** The language a hand reads from here on, where there are words in it. */
  reads: z.strictObject({ hand, language: z.enum(languages) }),
  /** The key this station signs with from here on, as a C2SP verifier key. */
  keyed: z.strictObject({ key: words, signed }),
  retired: z.strictObject({ hand, reason: z.optional(words), signed }),
  /** What is kept of a PIN: scrypt (RFC 7914) of it with this salt at this cost, both in hexadecimal; never the PIN. */
  'pin-set': z.strictObject({ hand, salt: hex, hash: hex, n: powerOfTwo, r: cost(16), p: cost(16), signed }),
  /** A wrong PIN was typed for this hand, and what it was to sign. */
  'pin-failed': z.strictObject({ hand, for: z.enum(meanings) }),
  /** The right PIN after wrong ones: they no longer count. */
  'pin-proven': z.strictObject({ hand }),
  /** How well a hand does an operation, from now on: 0 none, 1 in training, 2 with help, 3 alone, 4 can teach. */
  skilled: z.strictObject({ hand, skill: words, level: z.literal(levels), signed }),
  /** `author`: who wrote it; older entries do not say. `alone`: whoever released it had written it, in a room that says it has one supervisor. */
  released: z.strictObject({
    procedure,
    revision: words,
    author: z.optional(hand),
    alone: z.optional(z.literal(true)),
    digest,
    /** Digest of the procedure as the program understood that text. */
    understood: digest,
    title: words,
    pictures: z.array(z.strictObject({ address: words, digest })),
    /** The same procedure in other languages: each text, and the procedure with its words put in. */
    sheets: z.optional(z.array(z.strictObject({ language: z.enum(languages), digest, understood: digest }))),
    signed,
  }),
  withdrawn: z.strictObject({ procedure, revision: words, reason: words, signed }),
  ticketed: z.strictObject({ ticket, procedure, sets: z.int().check(z.positive()), rolls: z.array(words) }),
  /** `after: 'lock'`: the same hand is back at a station that had locked itself; the shift goes on. */
  'signed-on': z.strictObject({ role: z.enum(roles), after: z.optional(z.literal('lock')), signed }),
  /**
   * `changedFrom`: the other text of this procedure that the hand played last, or what it was understood as where only pictures differ; its
   * differences are to be read first.
   */
  opened: z.strictObject({
    ...inBundle,
    signed,
    procedure,
    revision: words,
    digest,
    understood: digest,
    changedFrom: z.optional(digest),
  }),
  /** `sheet`: the text in the hand's own language that was on the screen. */
  'caution-read': z.strictObject({
    ...inBundle,
    set,
    step,
    caution: z.int().check(z.positive()),
    digest,
    sheet: z.optional(digest),
  }),
  /** Who stood by at a step that asks for a skill the sewer does not have alone. */
  helped: z.strictObject({ ...inBundle, set, step, by: hand }),
  /** `change`: which of the changes was read, of how many; neither where there was only one to read. */
  'changes-read': z.strictObject({
    ...inBundle,
    procedure,
    from: digest,
    to: digest,
    change: z.optional(z.int().check(z.positive())),
    of: z.optional(z.int().check(z.minimum(2))),
  }),
  'clock-started': z.strictObject({ ...inBundle, set, step, point, digest }),
  checked: z.strictObject({
    ...inBundle,
    set,
    step,
    point,
    /** Which blank of the point, counted from 1. */
    place: z.int().check(z.positive()),
    typed: z.string(),
    value: z.string(),
    unit: z.nullable(z.string()),
    limit: z.nullable(z.string()),
    verdict: z.enum(verdicts),
    /** How far outside the limit, in the unit. */
    by: z.optional(z.string()),
    witness: z.optional(hand),
    /** The explanations of the step were folded away on the screen: the points were done first and confirmed then. */
    folded: z.optional(z.literal(true)),
    /** The station's clock was set back while this point was timed: the time is a lower bound. */
    clockWasSetBack: z.optional(z.literal(true)),
    digest,
    /** The text in the hand's own language that was on the screen. */
    sheet: z.optional(digest),
    signed,
  }),
  /** What is on the bobbin in the machine from here on; what was left before, where that was known; what the step takes that is sewn next. All in mm. */
  'bobbin-fitted': z.strictObject({
    ...inBundle,
    set,
    step: z.nullable(step),
    wound: millimetres,
    left: z.nullable(millimetres),
    takes: z.optional(millimetres),
  }),
  /** What a step took from it, by the seams of its drawing, waste and all; mm. */
  'thread-used': z.strictObject({ ...inBundle, set, step, took: millimetres }),
  struck: z.strictObject({ ...inBundle, entry: count, reason: words, signed }),
  'sent-back': z.strictObject({ ...inBundle, set, step, again: z.array(step), reason: words }),
  held: z.strictObject({
    ...inBundle,
    hold: words,
    set,
    step: z.nullable(step),
    point: z.nullable(point),
    /** Which blank of the point; null where the hold is about no point. */
    place: z.nullable(z.int().check(z.positive())),
    reason: words,
  }),
  settled: z.strictObject({ ...inBundle, hold: words, set, how: settling, reason: words, signed }),
  /** May be finished on its revision although `current` is in use now, or (null) none is. */
  'kept-on': z.strictObject({ ...inBundle, revision: words, current: z.nullable(words) }),
  'handed-over': z.strictObject({ ...inBundle, to: hand }),
  paused: z.strictObject({ ...inBundle, reason: z.optional(words) }),
  resumed: z.strictObject({ ...inBundle, signed, procedure, digest, changedFrom: z.optional(digest) }),
  finished: z.strictObject({
    ...inBundle,
    sets: count,
    good: count,
    conceded: count,
    scrapped: count,
    /** A bundle on hold cannot be finished; it stands here so that the three counts can be added. */
    held: z.literal(0),
  }),
  /** Paper that carries the ticket's code: `copy` is 0 for the first, whatever it was; the others say COPY and their number. */
  printed: z.strictObject({ ...inBundle, what: z.enum(papers), copy: count, digest, signed }),
  noted: z.strictObject({ ...inBundle, set, step: z.nullable(step), text: words }),
  'gauge-checked': z.strictObject({ gauge: words, reading: words, fit: z.enum(['fit', 'unfit']) }),
} as const;

export type EntryKind = keyof typeof bodies;
export type Body<K extends EntryKind> = Frozen<z.infer<(typeof bodies)[K]>>;

/** What happened stays as it is, all the way down. */
type Frozen<T> = T extends string | number | null | undefined
  ? T
  : T extends readonly (infer Each)[]
    ? readonly Frozen<Each>[]
    : { readonly [K in keyof T]: Frozen<T[K]> };

/** What happened, with its body's type told by its kind. */
type Fact = { [K in EntryKind]: { readonly kind: K; readonly body: Body<K> } }[EntryKind];

/** A fact that is in the ledger: where, when (RFC 3339 with offset) and by whom. */
export type RecordedEntry = Fact & { readonly seq: number; readonly at: string; readonly hand: HandId };

/** A fact on its way to the ledger. */
export type EntryDraft = Fact & { readonly at: string; readonly hand: HandId };

/** The hand written where nobody is named: the room itself, for example when the first hand is enrolled. */
export const THE_ROOM = 'room' as HandId;

interface RawEntry {
  readonly seq: number;
  readonly at: string;
  readonly hand: string;
  readonly kind: string;
  readonly body: unknown;
}

/** Reads a ledger entry's kind and body; refuses what has another shape than this program writes. */
export function readEntry(raw: RawEntry): Result<RecordedEntry> {
  if (!isEntryKind(raw.kind))
    return refuse(
      'entry-kind-unknown',
      `Entry ${raw.seq} is of a kind this version does not know, ${raw.kind}: use a newer version.`,
    );
  const read = bodies[raw.kind].safeParse(raw.body);
  if (!read.success) {
    const place = read.error.issues[0]?.path.join('.') || 'body';
    return refuse(
      'entry-shape',
      `Entry ${raw.seq} (${raw.kind}) is not in the shape this program writes, at ${place}.`,
    );
  }
  return ok({ seq: raw.seq, at: raw.at, hand: raw.hand, kind: raw.kind, body: read.data } as RecordedEntry);
}

export const entryKinds = Object.keys(bodies) as readonly EntryKind[];

const isEntryKind = (kind: string): kind is EntryKind => Object.hasOwn(bodies, kind);
