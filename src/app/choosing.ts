import { refusal } from './acts.ts';
import type { App } from './app.ts';
import { keptRow } from './desk.ts';
import { lists } from './lists.ts';
import type { Mode } from './move.ts';
import { speak } from './speak.ts';

/** The choice moved by so many rows of the list; what was typed towards another is gone. */
export function chose(app: App, mode: Mode, by: number): App {
  const size = lists[mode]?.(app) ?? 0;
  if (size === 0) return app;
  const on = {
    ...app,
    field: mode === 'choice' || mode === 'form choice' ? '' : app.field,
    chosen: Math.min(size - 1, Math.max(0, app.chosen + by)),
    scroll: 0,
    message: null,
  };
  return mode === 'desk' ? keptRow(on) : on;
}

/** One digit chooses. A second one is a number meant for something else, and chooses nothing: what stands in its way is shown. */
export function numbered(app: App, mode: Mode, field: string): App {
  if (field === '') return { ...app, field, chosen: -1, message: null };
  const size = lists[mode]?.(app) ?? 0;
  const number = Number(field);
  return /^[1-9]$/.test(field) && number <= size
    ? { ...app, field, chosen: number - 1, message: null }
    : {
        ...app,
        field,
        chosen: -1,
        message: refusal(
          `“${field}”: ${speak(app)('Choose with one number, 1 to {size}, or the arrow keys.', { size })}`,
        ),
      };
}

/** Nothing is chosen yet: said, and a new number can be typed. */
export const unchosen = (app: App): App => ({
  ...app,
  field: '',
  message: refusal(speak(app)('Choose with a number or the arrow keys, then press enter.')),
});
