import type { Point } from '../procedure.ts';
import { COMMON_PRACTICE, type Rule } from './rule.ts';

const MOST_POINTS = 9;

/** Rules on steps, what they carry, and the kit they use. */
export const STEPS: readonly Rule[] = [
  {
    name: 'too-many-points',
    from: ['L27'],
    severity: 'warning',
    why: 'Five to seven things are learned and kept in mind at one go; a step with more than nine is two steps.',
    source: 'guide to writing procedures (5 to 7 for each unit that is taught), read',
    bad: `## ¦Sew the sleeves\n\n${Array.from({ length: 10 }, (_, index) => `- [ ] Sleeve ${index + 1} lies flat`).join('\n')}`,
    good: '## Sew the sleeves\n\n- [ ] Sleeves 1 to 5 lie flat\n- [ ] Sleeves 6 to 10 lie flat',
    check: ({ procedure, at }, say) => {
      for (const { title, line, points } of procedure.steps) {
        if (points.length <= MOST_POINTS) continue;
        const message = `This step has ${points.length} points; ${MOST_POINTS} are the most.`;
        say({ at: at(line), found: title, message, mend: 'Make two steps of it.' });
      }
    },
  },
  {
    name: 'evidence-before-no-return',
    from: ['L36'],
    severity: 'error',
    why: 'After a step that cannot be undone nobody can look again: a bare tick is no evidence of what was there.',
    source: COMMON_PRACTICE,
    bad: '## ¦Cut the opening\n\n- Cannot be undone\n\n- [ ] Opening cut',
    good: '## Cut the opening\n\n- Cannot be undone\n\n- [ ] Cut line to the opening line ____ mm (12 ±1)\n- [ ] Opening cut',
    check: ({ procedure, at }, say) => {
      for (const { title, line, facts, points } of procedure.steps) {
        if (!facts.cannotBeUndone || points.length === 0 || points.some(isEvidence)) continue;
        const mend = 'Add a reading, a count, a choice or a hold point to it.';
        say({
          at: at(line),
          found: title,
          message: 'This step cannot be undone, and only ticks are asked in it.',
          mend,
        });
      }
    },
  },
  {
    name: 'no-return-unmarked',
    from: ['L36'],
    severity: 'hint',
    why: 'What is cut or glued stays so. The mark shows it on every screen before the step is begun.',
    source: COMMON_PRACTICE,
    bad: '## ¦Cut the opening\n\n- [ ] Opening cut',
    good: '## Cut the opening\n\n- Cannot be undone\n\n- [ ] Edges of the opening ____ (**clean** / frayed)',
    check: ({ procedure, words, at }, say) => {
      for (const { title, line, facts } of procedure.steps) {
        if (facts.cannotBeUndone || !words.forGood.test(title)) continue;
        say({
          at: at(line),
          found: title,
          message: 'This reads like a step that cannot be undone.',
          mend: 'Add the line - Cannot be undone if it is one.',
        });
      }
    },
  },
  {
    name: 'allowed-time-missing',
    from: ['L41'],
    severity: 'hint',
    why: 'Without a time for the step nobody sees who is stuck, and a bundle cannot be priced.',
    source: COMMON_PRACTICE,
    bad: '## ¦Sew the strap\n\n- [ ] Strap lies flat\n\n## Wrap the strap\n\n- Allowed time: 2 min\n\n- [ ] Strap wrapped',
    good: '## Sew the strap\n\n- Allowed time: 5 min\n\n- [ ] Strap lies flat',
    check: ({ procedure, at }, say) => {
      // A text that gives none at all is not timed.
      if (procedure.steps.every(({ facts }) => facts.allowedMinutes === null)) return;
      for (const { title, line, facts } of procedure.steps) {
        if (facts.allowedMinutes !== null && Number(facts.allowedMinutes) > 0) continue;
        say({
          at: at(line),
          found: title,
          message: 'Other steps have an allowed time, and this one has none.',
          mend: 'Add a line such as - Allowed time: 5 min.',
        });
      }
    },
  },
  {
    name: 'piece-unused',
    from: ['L33'],
    severity: 'warning',
    why: 'A piece of the kit that no step, seam or picture names was forgotten in the text, or is not needed in the kit.',
    source: `${COMMON_PRACTICE}; a warning and no error here, as a kit may hold a spare`,
    bad: '---\nprocedure: A-1\ntitle: A\nkit:\n  A: panel\n  ¦Z9: strap\n---\n\n## Sew A to its patch\n\n- [ ] Panel lies flat\n',
    good: '---\nprocedure: A-1\ntitle: A\nkit:\n  A: panel\n  Z9: strap\n---\n\n## Sew Z9 to A\n\n- [ ] Strap lies flat\n',
    check: ({ procedure, source }, say) => {
      if (procedure.kit.length === 0) return;
      const used = new Set(
        procedure.steps.flatMap(({ facts, pictures }) => [
          ...(facts.seams?.ids ?? []),
          ...pictures.flatMap(({ bringOut }) => bringOut),
        ]),
      );
      const left = procedure.kit.filter(({ id }) => !used.has(id));
      if (left.length === 0) return;
      const text = procedure.steps
        .map(({ title, prose, points }) => [title, prose, ...points.map((point) => point.text)].join('\n'))
        .join('\n');
      const named = new Set(text.split(/[^\p{L}\p{N}_-]+/u));
      for (const { id, words } of left) {
        if (named.has(id) || (words.length > 3 && text.toLowerCase().includes(words.toLowerCase()))) continue;
        const at = source.text.search(new RegExp(`^ +["']?${id.replace(/[^\p{L}\p{N}_-]/gu, '.')}["']?:`, 'mu'));
        const lead = /^ */.exec(source.text.slice(Math.max(0, at)))?.[0].length ?? 0;
        say({
          at: Math.max(0, at) + lead,
          found: `${id}: ${words}`,
          message: `No step names ${id}, and no picture or seam does.`,
          mend: 'Name it where it is used, or take it out of the kit.',
        });
      }
    },
  },
  {
    name: 'kit-count',
    from: ['L34'],
    severity: 'error',
    why: 'The count of the kit is the pieces of one set times the sets: a wrong number passes a kit with a piece missing.',
    source: 'arithmetic',
    bad: '---\nprocedure: A-1\ntitle: A\nsets: 2\nkit:\n  A: panel\n  ST: strap × 2\n---\n\n## Count the kit\n\n- For the whole bundle\n\n- [ ] ¦Pieces in the bundle ____ pcs (5)\n\n## Sew ST to A\n\n- [ ] Straps lie flat\n',
    good: '---\nprocedure: A-1\ntitle: A\nsets: 2\nkit:\n  A: panel\n  ST: strap × 2\n---\n\n## Count the kit\n\n- For the whole bundle\n\n- [ ] Pieces in the bundle ____ pcs (6)\n\n## Sew ST to A\n\n- [ ] Straps lie flat\n',
    check: ({ procedure, words, at }, say) => {
      const inSet = procedure.kit.reduce((sum, { count }) => sum + count, 0);
      if (inSet === 0) return;
      for (const point of procedure.steps.flatMap(({ points }) => points)) {
        if (point.kind !== 'count' || !point.limit || point.limit.low !== point.limit.high) continue;
        const bundle = words.kitOfBundle.test(point.text);
        if (!bundle && !words.kitOfSet.test(point.text)) continue;
        const due = bundle ? inSet * procedure.sets : inSet;
        if (Number(point.limit.low) === due) continue;
        const message = bundle
          ? `The kit has ${inSet} pieces and the bundle ${procedure.sets} sets, which makes ${due}, not ${point.limit.low}.`
          : `The kit has ${due} pieces, not ${point.limit.low}.`;
        say({
          at: at(point.line),
          found: point.text,
          message,
          mend: `Write (${due}), or correct the kit or sets: at the top.`,
        });
      }
    },
  },
];

const isEvidence = ({ kind }: Point): boolean => kind !== 'tick' && kind !== 'timed';
