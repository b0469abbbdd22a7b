import type { Limit } from '../measure/limit.ts';
import { limitChange } from '../measure/limit-change.ts';
import type { About, Change, Difference } from './difference.ts';
import { formulaWords } from './formula-words.ts';
import { likeness, type Pair, pairs } from './pairs.ts';
import { plainText } from './plain-text.ts';
import type { Caution, Picture, Point, Procedure, Step } from './procedure.ts';
import { plainTelling, type Telling } from './telling.ts';

/**
 * What a hand who knew `before` must know about `after`, in the order of the newer text, what is gone last. Steps and points are
 * paired by their ids, and where an id is gone by the likeness of their words: so a thing that was moved or reworded is told as one.
 */
export function differences(before: Procedure, after: Procedure, tell = plainTelling): readonly Difference[] {
  const steps = stepPairs(before, after);
  const byStep = new Map(steps.both.map((pair) => [pair.after, pair]));
  const points = movedBetween(steps.both);
  const inSteps = after.steps.flatMap((step) => {
    const pair = byStep.get(step);
    return pair ? betweenSteps(pair, points, tell) : [inStep(step, 'step', 'added', null, step.title)];
  });
  const gone = steps.removed.map((step) => inStep(step, 'step', 'removed', step.title, null));
  return [...ofTheWhole(before, after, tell), ...inSteps, ...gone];
}

/** The points that stand for each other in two texts, wherever they stand. */
export function pointPairs(before: Procedure, after: Procedure): readonly PointPair[] {
  const { both } = stepPairs(before, after);
  return [...both.flatMap(pointsOf), ...movedBetween(both).values()];
}

/** A point in two texts, with the step it is asked in. */
export interface PointPair {
  readonly before: { readonly step: Step; readonly point: Point };
  readonly after: { readonly step: Step; readonly point: Point };
}

const stepPairs = (before: Procedure, after: Procedure) =>
  pairs(before.steps, after.steps, (a, b) => Math.max(likeness(a.title, b.title), shared(a.points, b.points)));

/** The share of points that two steps have in common. */
function shared(a: readonly Point[], b: readonly Point[]): number {
  const texts = new Set(a.map(({ text }) => text));
  const most = Math.max(a.length, b.length);
  return most === 0 ? 0 : b.filter(({ text }) => texts.has(text)).length / most;
}

const pairPoints = ({ before, after }: Pair<Step>) =>
  pairs(before.points, after.points, (a, b) => (a.kind === b.kind ? likeness(a.text, b.text) : 0));

const pointsOf = (steps: Pair<Step>): readonly PointPair[] =>
  pairPoints(steps).both.map(({ before, after }) => ({
    before: { step: steps.before, point: before },
    after: { step: steps.after, point: after },
  }));

/** Points that are asked in another step than before: the same words, of the same kind. By the newer point. */
function movedBetween(steps: readonly Pair<Step>[]): ReadonlyMap<Point, PointPair> {
  const gone = steps.flatMap((pair) => pairPoints(pair).removed.map((point) => ({ step: pair.before, point })));
  const moved = new Map<Point, PointPair>();
  for (const pair of steps)
    for (const point of pairPoints(pair).added) {
      const place = gone.findIndex(({ point: was }) => was.kind === point.kind && was.text === point.text);
      const [before] = place < 0 ? [] : gone.splice(place, 1);
      if (before) moved.set(point, { before, after: { step: pair.after, point } });
    }
  return moved;
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

function betweenSteps(pair: Pair<Step>, moved: ReadonlyMap<Point, PointPair>, tell: Telling): readonly Difference[] {
  const { before, after } = pair;
  const points = pairPoints(pair);
  const away = new Set([...moved.values()].map((each) => each.before.point));
  return [
    ...(pair.moved ? [inStep(after, 'step', 'moved', String(before.number), String(after.number))] : []),
    ...differs(after, 'step', 'reworded', before.title, after.title),
    ...betweenFacts(pair, tell),
    ...betweenCautions(pair, tell),
    ...betweenPictures(pair),
    ...betweenWords(pair),
    ...after.points.flatMap((point) => {
      const same = points.both.find((each) => each.after === point);
      const from = moved.get(point);
      if (from)
        return [
          atPoint(after, point, 'moved here', String(from.before.step.number), String(after.number)),
          ...betweenPoints(after, from.before.point, point, tell),
        ];
      if (!same) return [atPoint(after, point, 'added', null, inWords(point, tell))];
      const place = (of: Step, at: Point): string => String(of.points.indexOf(at) + 1);
      return [
        ...(same.moved ? [atPoint(after, point, 'moved', place(before, same.before), place(after, point))] : []),
        ...betweenPoints(after, same.before, point, tell),
      ];
    }),
    ...points.removed
      .filter((point) => !away.has(point))
      .map((point) => atPoint(after, point, 'removed', inWords(point, tell), null)),
  ];
}

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
    ...both.flatMap(({ before: was, after: is }) =>
      differs(after, 'caution', was.caution.word === is.caution.word ? 'reworded' : 'changed', was.id, is.id),
    ),
    ...added.map(({ id }) => inStep(after, 'caution', 'added', null, id)),
    ...removed.map(({ id }) => inStep(after, 'caution', 'removed', id, null)),
  ];
}

/** The sentences that differ, not those that stayed. */
function betweenWords({ before, after }: Pair<Step>): readonly Difference[] {
  const [was, is] = [before, after].map(({ prose }) => sentences(prose));
  if (!was || !is) return [];
  const only = (of: readonly string[], other: readonly string[]): string | null =>
    of.filter((sentence) => !other.includes(sentence)).join(' ') || null;
  const [gone, come] = [only(was, is), only(is, was)];
  if (gone === null && come === null) return differs(after, 'words', 'moved', was.join(' '), is.join(' '));
  return differs(after, 'words', gone === null ? 'added' : come === null ? 'removed' : 'reworded', gone, come);
}

const sentences = (markdown: string): readonly string[] =>
  markdown
    .split(/\n{2,}/)
    .map(plainText)
    .flatMap((paragraph) => paragraph.split(/(?<=[.!?]) /));

function betweenPictures({ before, after }: Pair<Step>): readonly Difference[] {
  const named = (pictures: readonly Picture[]) =>
    pictures.map((picture) => ({ id: `${picture.alt} (${[picture.address, ...picture.bringOut].join(' ')})` }));
  const { both, removed, added } = pairs(named(before.pictures), named(after.pictures), (a, b) => likeness(a.id, b.id));
  return [
    ...both.flatMap(({ before: was, after: is }) => differs(after, 'picture', 'changed', was.id, is.id)),
    ...added.map(({ id }) => inStep(after, 'picture', 'added', null, id)),
    ...removed.map(({ id }) => inStep(after, 'picture', 'removed', id, null)),
  ];
}

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

const limitOf = (point: Point): Limit | null => ('limit' in point ? point.limit : null);

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
