import type { App } from '../app/app.ts';
import { onlyLooks } from '../app/desk.ts';
import { assertNever } from '../base/assert-never.ts';
import type { WantedPoint } from '../bundle/next.ts';
import type { Plain } from '../words/say.ts';

/** What Enter does at this moment, where the keymap's own words are too general; null where they are not. */
export function enterWords(app: App): Plain | null {
  if (app.pin || app.lock || app.layer || !app.play) return null;
  const { next } = app.play;
  if (onlyLooks(app)) return 'back to the desk';
  switch (next.want) {
    case 'opening':
      return 'begin';
    case 'resuming':
      return 'take it up';
    case 'finish':
      return 'finish';
    case 'nothing':
      return app.home === 'station' ? 'back to the station' : 'leave';
    case 'point':
      return atPoint(next);
    case 'helping':
    case 'bobbin':
      return 'go on';
    case 'settling':
    case 'changes':
    case 'caution':
      return null;
    default:
      return assertNever(next);
  }
}

function atPoint({ point, clock }: WantedPoint): Plain {
  switch (point.kind) {
    case 'tick':
      return 'done';
    case 'timed':
      return clock ? 'stop the clock' : 'start the clock';
    case 'hold point':
      return 'sign';
    case 'computed':
    case 'reading':
    case 'count':
    case 'written':
    case 'choice':
      return 'record';
    default:
      return assertNever(point);
  }
}
