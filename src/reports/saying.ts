import { metresSaid } from '../app/metres.ts';
import { assertNever } from '../base/assert-never.ts';
import type { StepId } from '../base/brand.ts';
import { languageNames } from '../base/language.ts';
import { many } from '../base/many.ts';
import type { RecordedEntry, Settling } from '../bundle/entries.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import { levelWords } from '../bundle/skill.ts';
import type { Step } from '../procedure/procedure.ts';

/** What an entry other than a check says, in a few words. */
export function saying(entry: RecordedEntry, room: Room, steps: readonly Step[]): string | null {
  const stepWords = (id: StepId): string => {
    const step = steps.find((each) => each.id === id);
    return step ? `step ${step.number}, ${step.title}` : id;
  };
  switch (entry.kind) {
    case 'enrolled':
      return `${entry.body.name} (${entry.body.hand}), ${entry.body.role}`;
    case 'keyed':
      return `the station signs with ${entry.body.key}`;
    case 'retired':
      return `${nameOf(room, entry.body.hand)}${entry.body.reason ? `: ${entry.body.reason}` : ''}`;
    case 'pin-set':
    case 'pin-proven':
      return nameOf(room, entry.body.hand);
    case 'pin-failed':
      return `${nameOf(room, entry.body.hand)}, for “${entry.body.for}”`;
    case 'skilled':
      return `${nameOf(room, entry.body.hand)}: ${entry.body.skill}, ${entry.body.level} ${levelWords[entry.body.level]}`;
    case 'helped':
      return nameOf(room, entry.body.by);
    case 'signed-on':
      return entry.body.after === 'lock' ? 'after the station had locked itself' : null;
    case 'reads':
      return `${nameOf(room, entry.body.hand)}: ${languageNames[entry.body.language]}`;
    case 'released':
      return `${entry.body.procedure} revision ${entry.body.revision}${entry.body.author === undefined ? '' : `, written by ${nameOf(room, entry.body.author)}`}${entry.body.alone ? ', the only supervisor' : ''}`;
    case 'withdrawn':
      return `${entry.body.procedure} revision ${entry.body.revision}: ${entry.body.reason}`;
    case 'gauge-checked':
      return `${entry.body.gauge} read ${entry.body.reading}, ${entry.body.fit}`;
    case 'ticketed':
      return `${entry.body.procedure}, ${many(entry.body.sets, 'set')}${entry.body.rolls.length ? `, rolls ${entry.body.rolls.join(', ')}` : ''}`;
    case 'opened':
      return `revision ${entry.body.revision}`;
    case 'changes-read':
      return entry.body.change === undefined ? null : `change ${entry.body.change} of ${entry.body.of}`;
    case 'caution-read':
      return cautionWords(steps, entry.body.step, entry.body.caution);
    case 'bobbin-fitted': {
      const { wound, left, takes } = entry.body;
      const before = left === null ? '' : `, ${metresSaid(left)} m were left`;
      return `${metresSaid(wound)} m on it${before}${takes === undefined ? '' : `, the step takes ${metresSaid(takes)} m`}`;
    }
    case 'thread-used':
      return `${stepWords(entry.body.step)} took ${metresSaid(entry.body.took)} m from the bobbin`;
    case 'struck':
      return `entry ${entry.body.entry}: ${entry.body.reason}`;
    case 'sent-back':
      return `back to ${stepWords(entry.body.step)}: ${entry.body.reason}`;
    case 'held':
      return `${entry.body.hold}: ${entry.body.reason}`;
    case 'settled':
      return `${entry.body.hold}, ${settlingWords(entry.body.how, stepWords)}: ${entry.body.reason}`;
    case 'kept-on':
      return `revision ${entry.body.revision}, although ${entry.body.current === null ? 'none is in use' : `${entry.body.current} is in use`}`;
    case 'handed-over':
      return `to ${nameOf(room, entry.body.to)}`;
    case 'paused':
      return entry.body.reason ?? null;
    case 'finished':
      return `${entry.body.good} of ${entry.body.sets} good, ${entry.body.conceded} by concession, ${entry.body.scrapped} scrapped`;
    case 'printed':
      return entry.body.copy === 0 ? entry.body.what : `${entry.body.what}, COPY ${entry.body.copy}`;
    case 'noted':
      return entry.body.text;
    default:
      return null;
  }
}

/** The signal word and what it warns of: the first sentence. */
function cautionWords(steps: readonly Step[], id: StepId, number: number): string {
  const caution = steps.find((each) => each.id === id)?.cautions[number - 1];
  return caution ? `${caution.word} ${/^.*?[.](?=\s|$)/.exec(caution.text)?.[0] ?? caution.text}` : `caution ${number}`;
}

function settlingWords(how: Settling, stepWords: (id: StepId) => string): string {
  switch (how.as) {
    case 'rework':
      return `rework from ${stepWords(how.step)}`;
    case 'recut':
      return `${how.piece} recut as ${how.newPiece}${how.roll ? ` from ${how.roll}` : ''}, back to ${stepWords(how.step)}`;
    case 'concession':
      return `concession ${how.name}, ${how.limit}, until ${how.expires}`;
    case 'scrap':
      return `set ${how.set} scrapped`;
    default:
      return assertNever(how);
  }
}
