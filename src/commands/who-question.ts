import { findAnyHand } from '../app/find-hand.ts';
import type { ProcedureId } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type Hand, type Release, type Room, releasesOf } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import type { WhoRow } from '../reports/who.ts';

/** What may be said behind `walkfoot who`. */
export interface WhoSaid {
  readonly hand?: string;
  readonly step?: string;
  readonly since?: string;
  readonly until?: string;
  readonly roll?: string;
  readonly repeated?: boolean;
  readonly procedure?: string;
  readonly revision?: string;
  readonly skill?: string;
  readonly holds?: boolean;
  readonly concessions?: boolean;
  readonly text?: boolean;
}

/** The one thing an auditor asks in a call. */
export type Question =
  | { readonly ask: 'what was done' }
  | { readonly ask: 'what was repeated' }
  | { readonly ask: 'where a roll went'; readonly roll: string }
  | { readonly ask: 'what was sewn on'; readonly sewn: SewnOn }
  | { readonly ask: 'who passed'; readonly sewn: SewnOn; readonly operation: Operation }
  | { readonly ask: 'what is open'; readonly matters: readonly ('holds' | 'concessions')[] }
  | { readonly ask: 'what a step said'; readonly ticket: string; readonly step: number };

interface SewnOn {
  readonly procedure: ProcedureId;
  /** Null: on any of them. */
  readonly revision: string | null;
  /** What is meant by these two, newest last; never empty. */
  readonly releases: readonly Release[];
}

/** An operation by the skill its step needs, or by the step's number. */
type Operation = { readonly skill: string } | { readonly step: number };

export interface Asked {
  readonly question: Question;
  /** Which rows of the answer are wanted. */
  readonly wanted: (row: WhoRow) => boolean;
  /** The step whose rows are wanted, when one is. */
  readonly step: number | null;
}

/** Understands what was asked; what does not go together is refused with the way out. */
export function whoQuestion(room: Room, ticket: string | undefined, said: WhoSaid): Result<Asked> {
  if (said.step !== undefined && !/^\d{1,4}$/.test(said.step))
    return refuse('step-number', `--step takes a step’s number, not ${said.step}.`);
  const question = questionOf(room, ticket, said);
  if (!question.ok) return question;
  const hand = said.hand === undefined ? undefined : findAnyHand(room, said.hand);
  if (hand && !hand.ok) return hand;
  const inTime = timeOf(said);
  if (!inTime.ok) return inTime;
  const step = said.step === undefined || question.value.ask === 'who passed' ? null : Number(said.step);
  return ok({ question: question.value, wanted: wantedBy(hand?.value, step, inTime.value), step });
}

/** A hand also did what they looked at as the second person; a name is nobody else’s. */
const wantedBy =
  (hand: Hand | undefined, step: number | null, inTime: (at: string) => boolean) =>
  (row: WhoRow): boolean =>
    (hand === undefined || row.hand === hand.id || row.witness === hand.name) &&
    (step === null || row.step === step) &&
    inTime(row.doneAt ?? row.at);

function questionOf(room: Room, ticket: string | undefined, said: WhoSaid): Result<Question> {
  const { roll, repeated, procedure, revision, skill, holds, concessions, text, step } = said;
  const [first, second] = [
    ...(text ? ['--text'] : []),
    ...(roll === undefined ? [] : ['--roll']),
    ...(repeated ? ['--repeated'] : []),
    ...(procedure === undefined ? [] : ['--procedure']),
    ...(holds ? ['--holds'] : concessions ? ['--concessions'] : []),
  ];
  if (second) return refuse('two-questions', `${first} and ${second} are two questions: ask one at a time.`);
  if (procedure === undefined && (revision !== undefined || skill !== undefined))
    return refuse(
      'procedure-missing',
      `${revision === undefined ? '--skill' : '--revision'} belongs to a procedure: say which, such as --procedure LIN-2207 --revision C.`,
    );
  if (ticket !== undefined && (roll !== undefined || procedure !== undefined))
    return refuse('whole-room', `${first} looks through the whole room: leave out ${ticket}, or leave out ${first}.`);
  if (text) return stepText(ticket, said);
  if (roll !== undefined) return whereARollWent(roll, step);
  if (repeated) return ok({ ask: 'what was repeated' });
  if (procedure !== undefined) return sewnOrPassed(room, { ...said, procedure });
  const matters = [...(holds ? (['holds'] as const) : []), ...(concessions ? (['concessions'] as const) : [])];
  return ok(matters.length > 0 ? { ask: 'what is open', matters } : { ask: 'what was done' });
}

function stepText(ticket: string | undefined, { step, hand, since, until }: WhoSaid): Result<Question> {
  if (ticket === undefined || step === undefined)
    return refuse('text-of-what', '--text needs a ticket and a step, such as `walkfoot who B-1041 --step 9 --text`.');
  if (hand !== undefined || since !== undefined || until !== undefined)
    return refuse(
      'text-for-all',
      '--text says what the step said to everybody on that bundle: leave out --hand, --since and --until.',
    );
  return ok({ ask: 'what a step said', ticket, step: Number(step) });
}

function whereARollWent(roll: string, step: string | undefined): Result<Question> {
  if (roll.trim() === '') return refuse('roll-missing', '--roll takes the name of a roll, such as --roll R-318.');
  return step === undefined
    ? ok({ ask: 'where a roll went', roll })
    : refuse('roll-of-bundle', `A roll goes into whole bundles, not into one step: leave out --step ${step}.`);
}

function sewnOrPassed(room: Room, said: WhoSaid & { readonly procedure: string }): Result<Question> {
  const { skill, step } = said;
  const sewn = sewnOn(room, said);
  if (!sewn.ok) return sewn;
  if (skill !== undefined && step !== undefined)
    return refuse('two-operations', 'An operation is named by --skill or by --step: leave out one of them.');
  if (skill !== undefined) return ok({ ask: 'who passed', sewn: sewn.value, operation: { skill } });
  if (step === undefined) return ok({ ask: 'what was sewn on', sewn: sewn.value });
  if (sewn.value.revision === null)
    return refuse(
      'revision-missing',
      `A step has its number on one revision: say which, such as --revision ${sewn.value.releases.at(-1)?.revision}.`,
    );
  return ok({ ask: 'who passed', sewn: sewn.value, operation: { step: Number(step) } });
}

function sewnOn(room: Room, said: { readonly procedure: string; readonly revision?: string }): Result<SewnOn> {
  const procedure = named(room.releases.keys(), said.procedure);
  if (!procedure)
    return refuse('procedure-unknown', `No ${said.procedure} was released here: ${orNone([...room.releases.keys()])}.`);
  const all = releasesOf(room, procedure);
  if (said.revision === undefined) return ok({ procedure, revision: null, releases: all });
  const revisions = all.map((release) => release.revision);
  const revision = named(revisions, said.revision);
  return revision
    ? ok({ procedure, revision, releases: all.filter((release) => release.revision === revision) })
    : refuse('revision-unknown', `${procedure} has no revision ${said.revision}: there are ${revisions.join(', ')}.`);
}

const orNone = (names: readonly string[]): string =>
  names.length === 0 ? 'nothing is released yet' : `there are ${names.join(', ')}`;

function timeOf({ since: from, until: to }: WhoSaid): Result<(at: string) => boolean> {
  const since = edgeOf(from);
  const until = edgeOf(to);
  if (!since || !until)
    return refuse(
      'moment',
      'A time is given as a day, such as 2026-11-25, or as a full RFC 3339 time, such as 2026-11-25T10:42:00+01:00.',
    );
  if (from && to && since(to) < 0) return refuse('moment', `--until ${to} is before --since ${from}: turn them round.`);
  return ok((at) => since(at) >= 0 && until(at) <= 0);
}

/**
 * How a stamp stands to the edge of a span of time: below 0 before it, above 0 after it, 0 on it. A day is the day on the wall of
 * the station that wrote the stamp, with all its hours. Undefined when the words are no time.
 */
function edgeOf(said: string | undefined): ((at: string) => number) | undefined {
  if (said === undefined) return () => 0;
  const moment = parseStamp(said);
  if (moment) return (at) => (parseStamp(at)?.ms ?? 0) - moment.ms;
  return parseStamp(`${said}T00:00:00Z`) && ((at) => at.slice(0, 10).localeCompare(said));
}
