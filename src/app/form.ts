import { assertNever } from '../base/assert-never.ts';
import type { StepId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { setsLeft } from '../bundle/bundle.ts';
import type { SettleHow } from '../bundle/command.ts';
import type { Role } from '../bundle/entries.ts';
import { kitPiece } from '../bundle/kit-piece.ts';
import { lastDay } from '../bundle/last-day.ts';
import { actor, workers } from '../bundle/situation.ts';
import type { Plain, Say } from '../words/say.ts';
import type { App, Form, Play } from './app.ts';
import { bobbinQuestion } from './bobbin-words.ts';
import { findHand } from './find-hand.ts';
import type { Intent } from './intent.ts';
import { speak } from './speak.ts';

export interface Question {
  readonly name: string;
  readonly words: string;
  /** Chosen by number or arrow where there are some, typed otherwise. */
  readonly options?: readonly Option[];
  /** Taken when the answer is empty. */
  readonly usual?: string;
  /** The answer as understood, or why it is none. */
  readonly understand: (typed: string) => Result<string>;
}

/** What may be chosen: as it is kept, and in the words of whoever chooses. */
interface Option {
  readonly is: string;
  readonly words: string;
}

/** The first question that has no answer yet; undefined when the form is complete. */
export const question = (app: App, form: Form): Question | undefined =>
  questions(app, form).find(({ name }) => form.answers[name] === undefined);

/** The form with one more answer, or the plain sentence why that is no answer. */
export function answerForm(app: App, form: Form, typed: string): Result<Form> {
  const asked = question(app, form);
  if (!asked) return ok(form);
  const understood = asked.understand(typed.trim() === '' ? (asked.usual ?? '') : typed.trim());
  return understood.ok ? ok({ ...form, answers: { ...form.answers, [asked.name]: understood.value } }) : understood;
}

/** The form with its last question open again, after what it asked for was refused. */
export function reopened(form: Form): Form {
  const answers = Object.entries(form.answers).slice(0, -1);
  return { ...form, answers: Object.fromEntries(answers) };
}

/** What the complete form asks for. */
export function intentOf(form: Form): Intent {
  const said = (name: string): string => form.answers[name] ?? '';
  switch (form.about) {
    case 'hold':
    case 'go back':
      return { intent: form.about, reason: said('reason') };
    case 'strike':
      return { intent: 'strike', ...(form.entry === undefined ? {} : { entry: form.entry }), reason: said('reason') };
    case 'note':
      return { intent: 'note', text: said('text') };
    case 'hand over':
      return { intent: 'hand over', to: said('to') };
    case 'bobbin':
      return { intent: 'bobbin', metres: said('metres') };
    case 'settle':
      return { intent: 'settle', by: said('by'), how: howOf(form), reason: said('reason') };
    default:
      return assertNever(form.about);
  }
}

const ways = ['rework', 'recut', 'concession', 'scrap a set'] as const satisfies readonly Plain[];

function questions(app: App, form: Form): readonly Question[] {
  const say = speak(app);
  switch (form.about) {
    case 'hold':
      return [words('reason', say('What is wrong?'))];
    case 'go back':
      return [words('reason', say('Why does it go back?'))];
    case 'strike':
      return [words('reason', say('Why is it struck?'))];
    case 'note':
      return [words('text', say('Note'))];
    case 'bobbin': {
      const thread = app.play?.thread;
      return thread ? [{ name: 'metres', words: bobbinQuestion(app, thread.full), usual: '', understand: ok }] : [];
    }
    case 'hand over':
      return [person(app, 'to', say('Who takes it? Name or badge'), workers)];
    case 'settle':
      return app.play ? settleQuestions(app, app.play, form) : [];
    default:
      return assertNever(form.about);
  }
}

function settleQuestions(app: App, play: Play, form: Form): readonly Question[] {
  const say = speak(app);
  const hold = play.next.want === 'settling' ? play.next.hold : undefined;
  const sets = setsLeft(play.bundle);
  const start = [
    person(app, 'by', say('Who settles it? Name or badge'), ['supervisor']),
    choice('how', say('How?'), inWords(say, ways)),
  ];
  const end = words('reason', say('Why so?'));
  const setOptions = sets.map((set) => ({ is: setName(set), words: say('set {set}', { set }) }));
  const whichSet =
    hold?.set == null && sets.length > 1
      ? [choice('set', say('Which set?'), [...inWords(say, ['all']), ...setOptions])]
      : [];
  const back = stepQuestion(say, play, hold?.step ?? null, form.answers.how === 'rework' ? 'this step' : 'none');
  switch (form.answers.how) {
    case 'rework':
      return [...start, ...whichSet, back, end];
    case 'recut':
      return [
        ...start,
        {
          name: 'piece',
          words: say('Which piece is replaced?'),
          understand: (typed) => {
            const found = typed === '' ? noWords() : kitPiece(play.procedure, play.bundle, typed);
            return found.ok ? ok(found.value.piece) : found;
          },
        },
        words('newPiece', say('Name of the new piece'), nextName(form.answers.piece ?? '')),
        { name: 'roll', words: say('From which roll? (enter: the same)'), usual: '', understand: ok },
        ...whichSet,
        back,
        end,
      ];
    case 'concession':
      return [
        ...start,
        words('limit', say('Its limit: how many, or for which use')),
        {
          name: 'expires',
          words: say('Its last day, such as 2026-12-31'),
          understand: (typed) => lastDay(typed, app.now),
        },
        end,
      ];
    case 'scrap a set':
      return [
        ...start,
        choice('set', say('Which set is scrapped?'), setOptions, hold?.set == null ? undefined : setName(hold.set)),
        sure(say, setOptions.find(({ is }) => is === form.answers.set)?.words ?? ''),
        end,
      ];
    default:
      return start;
  }
}

/** What cannot be taken back is asked for twice, with the harmless answer first. */
const sure = (say: Say, set: string): Question => {
  const question = choice('sure', say('Scrap {set}? Nothing brings it back', { set }), inWords(say, ['no', 'yes']));
  return {
    ...question,
    understand: (typed) => {
      const answer = question.understand(typed);
      return answer.ok && answer.value === 'no'
        ? refuse('not-sure', 'Not scrapped: choose yes, or let it be and settle it in another way.')
        : answer;
    },
  };
};

const inWords = (say: Say, each: readonly Plain[]): readonly Option[] => each.map((is) => ({ is, words: say(is) }));

/** A set as an option: `set 2`, so that its number is not mistaken for a place in the list. */
const setName = (set: number): string => `set ${set}`;
const setOf = (option: string): number => Number(option.replace('set ', ''));

function howOf({ answers }: Form): SettleHow {
  const said = (name: string): string => answers[name] ?? '';
  const step = said('step') as StepId;
  const set = answers.set === undefined || answers.set === 'all' ? {} : { set: setOf(answers.set) };
  switch (answers.how) {
    case 'recut':
      return {
        as: 'recut',
        step,
        ...set,
        piece: said('piece'),
        newPiece: said('newPiece'),
        ...(answers.roll ? { roll: answers.roll } : {}),
      };
    case 'concession':
      return { as: 'concession', limit: said('limit'), expires: said('expires') };
    case 'scrap a set':
      return { as: 'scrap', set: setOf(said('set')) };
    default:
      return { as: 'rework', step, ...set };
  }
}

/**
 * Only the step of the hold and those before it: work does not go forward over what is not done. A new piece has nothing of
 * the steps before on it, so for a recut no step is the usual one.
 */
function stepQuestion(say: Say, { procedure }: Play, held: StepId | null, usual: 'this step' | 'none'): Question {
  const until = procedure.steps.findIndex(({ id }) => id === held);
  const steps = until < 0 ? procedure.steps : procedure.steps.slice(0, until + 1);
  const last = steps.at(-1);
  return {
    name: 'step',
    words: say('Back to which step? Its number'),
    ...(last && usual === 'this step' ? { usual: String(last.number) } : {}),
    understand: (typed) => {
      const found = steps.find(({ number, id }) => String(number) === typed || id === typed);
      return found
        ? ok(found.id)
        : refuse('no-such-step', 'Type the number of a step, 1 to {length}.', { length: steps.length });
    },
  };
}

const words = (name: string, asked: string, usual?: string): Question => ({
  name,
  words: asked,
  ...(usual === undefined ? {} : { usual }),
  understand: (typed) => (typed === '' ? noWords() : ok(typed)),
});

const noWords = () => refuse('words-missing', 'A few words are needed here.');

/** What a piece cut anew is usually called: C-R1 for C, C-R2 for that. */
const nextName = (piece: string): string => {
  const [, of = piece, times = '0'] = /^(.+)-R(\d+)$/.exec(piece) ?? [];
  return `${of}-R${Number(times) + 1}`;
};

/** Somebody who may do it; that they may not is said when they are named, not after the last question. */
const person = (app: App, name: string, asked: string, allowed: readonly Role[]): Question => ({
  name,
  words: asked,
  understand: (typed) => {
    const hand = findHand(app.room, typed);
    const may = hand.ok ? actor(app.room, hand.value.id, allowed) : hand;
    return may.ok ? ok(may.value.id) : may;
  },
});

const choice = (name: string, asked: string, options: readonly Option[], usual?: string): Question => ({
  name,
  words: asked,
  options,
  ...(usual === undefined ? {} : { usual }),
  understand: (typed) => {
    const found =
      options.find((option) => namesOf(option).includes(typed.toLowerCase())) ??
      (/^\d{1,3}$/.test(typed) ? options[Number(typed) - 1] : onlyOne(options, typed));
    return found === undefined
      ? refuse('no-such-choice', 'Choose one of: {options}.', {
          options: options.map(({ words }, index) => `${index + 1} ${words}`).join(', '),
        })
      : ok(found.is);
  },
});

function onlyOne(options: readonly Option[], typed: string): Option | undefined {
  const starting = options.filter(
    (option) => typed !== '' && namesOf(option).some((name) => name.startsWith(typed.toLowerCase())),
  );
  return starting.length === 1 ? starting[0] : undefined;
}

/** The words of whoever chooses, and those it is kept by, which a script types whoever is signed on. */
const namesOf = ({ is, words }: Option): readonly string[] => [words.toLowerCase(), is];
