import type { App } from '../app/app.ts';
import { bobbinQuestion, bobbinWords } from '../app/bobbin-words.ts';
import type { Next } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { askedBefore } from './asked-before.ts';

/** A step that would run out of bobbin where it shows or cannot be undone: a fresh one goes in first. */
export const freshBobbin = (app: App, next: Extract<Next, { readonly want: 'bobbin' }>, size: Size): Page =>
  askedBefore(
    app,
    next.at.step,
    { words: bobbinWords(app, next), question: bobbinQuestion(app, next.full), field: 12 },
    size,
  );
