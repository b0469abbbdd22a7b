import { readDuration } from './durations.ts';
import { nearest } from './nearest.ts';
import { cut, originOf, type Passage, trim } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { SeamsFact, StepFacts } from './procedure.ts';
import type { Reading } from './reading.ts';
import { readSeams } from './seams.ts';
import { insertValues } from './values.ts';

/** The facts of a step while its lines are read. `ifOut` is kept as words until all steps are known. */
export interface FactsDraft {
  scope: StepFacts['scope'] | null;
  allowedMinutes: string | null;
  seams: SeamsFact | null;
  ifOut: Passage | null;
  needsSkill: string | null;
  cannotBeUndone: boolean;
}

export const noFacts = (): FactsDraft => ({
  scope: null,
  allowedMinutes: null,
  seams: null,
  ifOut: null,
  needsSkill: null,
  cannotBeUndone: false,
});

const LABELS = ['Allowed time', 'Seams', 'If out', 'Needs skill'] as const;
const WHOLE = ['For the whole bundle', 'For each set', 'Cannot be undone'] as const;

/** Whether a plain bullet begins like a fact, rightly or nearly. */
export function looksLikeFact(text: string): boolean {
  return (
    /^(?:For\b|cannot be undone)/.test(text) ||
    WHOLE.some((words) => isSame(words, text)) ||
    labelOf(text) !== undefined
  );
}

/** Reads a plain bullet into the facts. `false` when it is no fact but text of the step. */
export function readFact(bullet: Passage, facts: FactsDraft, reading: Reading): boolean {
  const text = bullet.text.replace(/\.?\s*$/, '');
  const at = originOf(bullet, 0);
  const say = (rule: string, message: string, mend: string): true => {
    reading.note({ rule, at, message, found: text, mend });
    return true;
  };
  const twice = (isGiven: boolean): void => {
    if (isGiven) say('fact-twice', 'This fact is given twice in the step.', 'Keep one of them.');
  };
  if (isSame('For the whole bundle', text) || isSame('For each set', text)) {
    twice(facts.scope !== null);
    facts.scope = isSame('For each set', text) ? 'set' : 'bundle';
    return true;
  }
  if (isSame('Cannot be undone', text)) {
    twice(facts.cannotBeUndone);
    facts.cannotBeUndone = true;
    return true;
  }
  if (/^cannot be undone/i.test(text) || nearest(text, ['Cannot be undone']) !== undefined) {
    facts.cannotBeUndone = true;
    return say(
      'fact-unreadable',
      'This looks like the fact that a step cannot be undone.',
      'Write "Cannot be undone" alone on its line.',
    );
  }
  if (/^For\b/.test(text)) return readFor(text, at, reading);
  const label = labelOf(text);
  if (label === undefined) return false;
  const colon = text.indexOf(':');
  if (!isSame(label, text.slice(0, Math.max(0, colon)).trim())) {
    return say('fact-unreadable', `This looks like the fact ${label}.`, `Write "${label}:" and then the words.`);
  }
  const rest = trim(insertValues(cut(bullet, colon + 1, text.length), reading));
  if (rest.text === '')
    return say('fact-unreadable', `Nothing stands behind ${label}:.`, 'Write it, or leave the line out.');
  readLabelled(label, rest, facts, reading, twice);
  return true;
}

function readLabelled(
  label: (typeof LABELS)[number],
  rest: Passage,
  facts: FactsDraft,
  reading: Reading,
  twice: (isGiven: boolean) => void,
): void {
  if (label === 'Seams') {
    twice(facts.seams !== null);
    facts.seams = readSeams(rest, reading);
  } else if (label === 'If out') {
    twice(facts.ifOut !== null);
    facts.ifOut = rest;
  } else if (label === 'Needs skill') {
    twice(facts.needsSkill !== null);
    facts.needsSkill = plainText(rest.text);
  } else {
    twice(facts.allowedMinutes !== null);
    const minutes = readDuration(rest.text);
    if (minutes !== undefined) facts.allowedMinutes = minutes;
    else {
      reading.note({
        rule: 'allowed-time-unreadable',
        at: originOf(rest, 0),
        message: 'The allowed time cannot be read.',
        found: rest.text,
        mend: 'Write it like 5 min, 1 h 20 min or 90 s.',
      });
    }
  }
}

/** Many bullets begin with the word; only one that nearly says what a step is for could mislead the program. */
function readFor(text: string, at: number, { note }: Reading): boolean {
  const near = nearest(text, ['For the whole bundle', 'For each set']);
  note({
    rule: near ? 'fact-unreadable' : 'fact-unknown',
    at,
    message: near ? `This is not quite "${near}".` : 'This bullet begins like a fact, but is read as text of the step.',
    found: text,
    mend: near ? `Write "${near}".` : 'Write "For the whole bundle" or "For each set" if one of them is meant.',
    ...(near ? {} : { severity: 'warning' as const }),
  });
  return false;
}

const isSame = (words: string, text: string): boolean =>
  text.trimStart().charAt(0).toLowerCase() === words.charAt(0).toLowerCase() &&
  text.replace(/\s+/g, ' ').replace(/\.$/, '').trim().toLowerCase() === words.toLowerCase();

function labelOf(text: string): (typeof LABELS)[number] | undefined {
  const colon = text.indexOf(':');
  if (colon !== -1 && colon < 20) {
    const near = nearest(text.slice(0, colon).trim(), LABELS);
    if (near !== undefined) return LABELS.find((label) => label === near);
  }
  return LABELS.find((label) => label === 'Allowed time' && text.toLowerCase().startsWith('allowed time'));
}
