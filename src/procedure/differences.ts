import type { Limit } from '../measure/limit.ts';
import { limitChange } from '../measure/limit-change.ts';
import type { About, Change, Difference } from './difference.ts';
import { formulaWords } from './formula-words.ts';
import { likeness, type Pair, pairs } from './pairs.ts';
import { plainText } from './plain-text.ts';
import { limitOf } from './point-limit.ts';
import { type SideBySide, sideBySide } from './point-pairs.ts';
import type { Caution, Picture, Point, Procedure, Step } from './procedure.ts';
import { plainTelling, type Telling } from './telling.ts';

/**
 * What a hand who knew `before` must know about `after`, in the order of the newer text, what is gone last. Steps and points are
 * paired by their ids, and where an id is gone by the likeness of their words: so a thing that was moved or reworded is told as one.
 */
export function differences(before: Procedure, after: Procedure, tell = plainTelling): readonly Difference[] {
  const beside = sideBySide(before, after);
  const { steps } = beside;
  const byStep = new Map(steps.both.map((pair) => [pair.after, pair]));
  const inSteps = after.steps.flatMap((step) => {
    const pair = byStep.get(step);
    return pair ? betweenSteps(pair, beside, tell) : newStep(step, beside, tell);
  });
  const gone = steps.removed.map((step) => inStep(step, 'step', 'removed', step.title, null));
  return [...ofTheWhole(before, after, tell), ...inSteps, ...gone];
}

function ofTheWhole(before: Procedure, after: Procedure, tell: Telling): readonly Difference[] {
  const kit = ({ kit: pieces }: Procedure): string =>
    pieces.map(({ id, words, count }) => `${id} ${words}${count > 1 ? ` × ${count}` : ''}`).join(', ');
  const told: readonly (readonly [About, Change, (of: Procedure) => string])[] = [
    ['title', 'reworded', ({ title }) => title],
    ['sets', 'changed', ({ sets }) => String(sets)],
    ['order of work', 'changed', ({ work }) => tell.word(work)],
    ['how often cautions are read', 'changed', ({ readCautions }) => tell.word(readCautions)],
    ['kit', 'changed', kit],
    ['introduction', 'reworded', ({ intro }) => plainText(intro)],
  ];
  return told.flatMap(([about, change, say]) => differs(null, about, change, say(before), say(after)));
}

function betweenSteps(pair: Pair<Step>, beside: SideBySide, tell: Telling): readonly Difference[] {
  const { before, after } = pair;
  const points = beside.within(pair);
  return [
    ...(pair.moved ? [inStep(after, 'step', 'moved', String(before.number), String(after.number))] : []),
    ...differs(after, 'step', 'reworded', before.title, after.title),
    ...betweenFacts(pair, tell),
    ...betweenCautions(pair, tell),
    ...betweenPictures(pair),
    ...betweenWords(pair),
    ...after.points.flatMap((point) => {
      const same = points.both.find((each) => each.after === point);
      if (!same) return movedHere(after, point, beside, tell) ?? [added(after, point, tell)];
      const place = (of: Step, at: Point): string => String(of.points.indexOf(at) + 1);
      return [
        ...(same.moved ? [atPoint(after, point, 'moved', place(before, same.before), place(after, point))] : []),
        ...betweenPoints(after, same.before, point, tell),
      ];
    }),
    ...points.removed.map((point) => atPoint(after, point, 'removed', inWords(point, tell), null)),
  ];
}

/** All of a new step is new, but for the points that came to it from another. */
const newStep = (step: Step, beside: SideBySide, tell: Telling): readonly Difference[] => [
  inStep(step, 'step', 'added', null, step.title),
  ...step.points.flatMap((point) => movedHere(step, point, beside, tell) ?? []),
];

function movedHere(step: Step, point: Point, { moved }: SideBySide, tell: Telling): readonly Difference[] | undefined {
  const from = moved.get(point);
  return (
    from && [
      atPoint(step, point, 'moved here', String(from.before.step.number), String(step.number)),
      ...betweenPoints(step, from.before.point, point, tell),
    ]
  );
}

const added = (step: Step, point: Point, tell: Telling): Difference =>
  atPoint(step, point, 'added', null, inWords(point, tell));

function betweenFacts({ before, after }: Pair<Step>, tell: Telling): readonly Difference[] {
  const told: readonly (readonly [About, (of: Step['facts']) => string | null])[] = [
    ['scope', ({ scope }) => tell.word(scope === 'bundle' ? 'for the whole bundle' : 'for each set')],
    ['cannot be undone', ({ cannotBeUndone }) => (cannotBeUndone ? tell.word('cannot be undone') : null)],
    ['seams', ({ seams }) => seams?.text ?? null],
    ['if out', ({ ifOut }) => ifOut?.text ?? null],
    ['skill', ({ needsSkill }) => needsSkill],
    ['allowed time', ({ allowedMinutes }) => (allowedMinutes === null ? null : `${allowedMinutes} min`)],
  ];
  return told.flatMap(([about, say]) => {
    const [was, is] = [say(before.facts), say(after.facts)];
    return differs(after, about, was === null ? 'added' : is === null ? 'removed' : 'changed', was, is);
  });
}

function betweenCautions({ before, after }: Pair<Step>, tell: Telling): readonly Difference[] {
  const named = (cautions: readonly Caution[]) =>
    cautions.map((caution) => ({ id: `${tell.word(caution.word)}: ${caution.text}`, caution }));
  const { both, removed, added } = pairs(named(before.cautions), named(after.cautions), (a, b) =>
    likeness(a.caution.text, b.caution.text),
  );
  return [
    ...both.flatMap(({ before: was, after: is, moved }) => [
      ...(moved ? [cautionMoved(after, placeOf(before, was.caution), placeOf(after, is.caution), is.id)] : []),
      ...differs(after, 'caution', was.caution.word === is.caution.word ? 'reworded' : 'changed', was.id, is.id),
    ]),
    ...added.map(({ id }) => inStep(after, 'caution', 'added', null, id)),
    ...removed.map(({ id }) => inStep(after, 'caution', 'removed', id, null)),
  ];
}

const placeOf = ({ cautions }: Step, caution: Caution): string => String(cautions.indexOf(caution) + 1);

const cautionMoved = (step: Step, before: string, after: string, of: string): Difference => ({
  ...inStep(step, 'caution', 'moved', before, after),
  of,
});

/** The sentences that differ, not those that stayed; all of them where only their order differs. */
function betweenWords({ before, after }: Pair<Step>): readonly Difference[] {
  const [was, is] = [sentences(before.prose), sentences(after.prose)];
  const [gone, come] = [without(was, is), without(is, was)];
  if (gone === null && come === null) return differs(after, 'words', 'reworded', was.join(' '), is.join(' '));
  return differs(after, 'words', gone === null ? 'added' : come === null ? 'removed' : 'reworded', gone, come);
}

/** A sentence that is said twice in one text and once in the other is there once more. */
function without(list: readonly string[], others: readonly string[]): string | null {
  const left = [...others];
  const only = list.filter((sentence) => {
    const at = left.indexOf(sentence);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  return only.join(' ') || null;
}

const sentences = (markdown: string): readonly string[] =>
  markdown
    .split(/\n{2,}/)
    .map(plainText)
    .flatMap((paragraph) => paragraph.split(/(?<=[.!?]) /));

function betweenPictures({ before, after }: Pair<Step>): readonly Difference[] {
  const named = (pictures: readonly Picture[]) =>
    pictures.map((picture) => ({
      id: `${picture.alt} (${[picture.address, ...picture.bringOut].join(' ')})`,
      picture,
    }));
  const { both, removed, added } = pairs(named(before.pictures), named(after.pictures), (a, b) => likeness(a.id, b.id));
  return [
    ...both.flatMap(({ before: was, after: is }) =>
      was.id === is.id && isRedrawn(was.picture, is.picture)
        ? [inStep(after, 'picture', 'redrawn', was.id, is.id)]
        : differs(after, 'picture', 'changed', was.id, is.id),
    ),
    ...added.map(({ id }) => inStep(after, 'picture', 'added', null, id)),
    ...removed.map(({ id }) => inStep(after, 'picture', 'removed', id, null)),
  ];
}

/** Told only where both texts were read with their pictures. */
const isRedrawn = (was: Picture, is: Picture): boolean =>
  was.digest !== undefined && is.digest !== undefined && was.digest !== is.digest;

function betweenPoints(step: Step, before: Point, after: Point, tell: Telling): readonly Difference[] {
  const said = details(before, after, tell);
  const change = said.some(([was, is]) => was !== is) ? 'changed' : 'reworded';
  const words = (of: 0 | 1): string => {
    const text = of === 0 ? before.text : after.text;
    return [text, ...said.flatMap((pair) => (pair[0] === pair[1] || pair[of] === '' ? [] : [pair[of]]))].join(', ');
  };
  const point = differs(step, 'point', change, words(0), words(1)).map((each) => ({ ...each, point: after.id }));
  return [...point, ...betweenLimits(step, before, after, tell)];
}

/** What a point is beside its words and its limit, older and newer side by side. */
function details(before: Point, after: Point, tell: Telling): readonly (readonly [string, string])[] {
  const said: readonly ((of: Point) => string)[] = [
    ({ kind }) => tell.word(kind),
    (of) => ('unit' in of ? of.unit : ''),
    (of) => ('places' in of ? tell.places(of.places) : ''),
    (of) => ('name' in of && of.name !== null ? tell.called(of.name) : ''),
    (of) => ('measures' in of && of.measures ? tell.drawn(of.measures.join(', ')) : ''),
    (of) => (of.kind === 'choice' ? optionWords(of.options) : ''),
    (of) => (of.kind === 'computed' ? formulaWords(of.formula, (name) => name) : ''),
  ];
  return said.map((say) => [say(before), say(after)] as const);
}

function betweenLimits(step: Step, before: Point, after: Point, tell: Telling): readonly Difference[] {
  const limits = { before: limitOf(before), after: limitOf(after) };
  const change = limitChange(limits.before, limits.after);
  if (change === null) return [];
  const said = (limit: Limit | null): string | null => (limit === null ? null : tell.limit(limit));
  const is = inStep(step, 'limit', change, said(limits.before), said(limits.after));
  return [{ ...is, point: after.id, of: after.text, limits }];
}

/** A point by itself: its words with its limit, or with what it takes. */
function inWords(point: Point, tell: Telling): string {
  const limit = limitOf(point);
  const more = limit ? tell.limit(limit) : point.kind === 'choice' ? optionWords(point.options) : '';
  return [`${point.kind === 'hold point' ? `${tell.word('hold point')}: ` : ''}${point.text}`, more]
    .filter(Boolean)
    .join(', ');
}

const optionWords = (options: readonly { readonly text: string; readonly acceptable: boolean }[]): string =>
  options.map(({ text, acceptable }) => (acceptable ? `*${text}*` : text)).join(' / ');

function differs(
  step: Step | null,
  about: About,
  change: Change,
  before: string | null,
  after: string | null,
): readonly Difference[] {
  return before === after ? [] : [inStep(step, about, change, before, after)];
}

const inStep = (
  step: Step | null,
  about: About,
  change: Change,
  before: string | null,
  after: string | null,
): Difference => ({
  about,
  change,
  step: step?.number ?? null,
  stepId: step?.id ?? null,
  point: null,
  of: null,
  before,
  after,
  limits: null,
});

const atPoint = (
  step: Step,
  point: Point,
  change: Change,
  before: string | null,
  after: string | null,
): Difference => ({
  ...inStep(step, 'point', change, before, after),
  point: point.id,
  of: change === 'moved' || change === 'moved here' ? point.text : null,
});
