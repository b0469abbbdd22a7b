import type { App } from '../app/app.ts';
import { helpWords } from '../app/help-words.ts';
import { speak } from '../app/speak.ts';
import type { Next } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { askedBefore } from './asked-before.ts';

/** A step that asks for more than this hand does alone: somebody is named who stands by. */
export const standBy = (app: App, next: Extract<Next, { readonly want: 'helping' }>, size: Size): Page =>
  askedBefore(
    app,
    next.at.step,
    { words: [helpWords(app, next)], question: speak(app)('Who stands by? Name or badge'), field: 30 },
    size,
  );
