import { ACTIONS } from './actions.ts';
import { CAUTIONS } from './cautions.ts';
import { DRAWINGS } from './drawings.ts';
import { DRAWN_KIT } from './drawn-kit.ts';
import { DRAWN_LENGTHS } from './drawn-lengths.ts';
import { DRAWN_SEAMS } from './drawn-seams.ts';
import { HAZARDS } from './hazards.ts';
import { LIMITS } from './limits.ts';
import { NAMES } from './names.ts';
import type { Rule } from './rule.ts';
import { SENTENCES } from './sentences.ts';
import { SEWING } from './sewing.ts';
import { STEPS } from './steps.ts';

/** Every rule that is applied to a procedure once it has been read. What the reading itself finds stands in `reader-rules.ts`. */
export const RULES: readonly Rule[] = [
  ...ACTIONS,
  ...SENTENCES,
  ...CAUTIONS,
  ...HAZARDS,
  ...LIMITS,
  ...STEPS,
  ...SEWING,
  ...NAMES,
  ...DRAWINGS,
  ...DRAWN_LENGTHS,
  ...DRAWN_SEAMS,
  ...DRAWN_KIT,
];
