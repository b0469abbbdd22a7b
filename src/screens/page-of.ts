import type { App, Play } from '../app/app.ts';
import { assertNever } from '../base/assert-never.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { caution } from './caution.ts';
import { changes } from './changes.ts';
import { deskScreen } from './desk.ts';
import { draftScreen } from './draft.ts';
import { far } from './far.ts';
import { finish } from './finish.ts';
import { finished } from './finished.ts';
import { formScreen } from './form-screen.ts';
import { freshBobbin } from './fresh-bobbin.ts';
import { hold } from './hold.ts';
import { keyHelp } from './key-help.ts';
import { lockScreen } from './lock-screen.ts';
import { lookBack } from './look-back.ts';
import { pictureScreen } from './picture-screen.ts';
import { pinScreen } from './pin-screen.ts';
import { sewing } from './sewing.ts';
import { standBy } from './stand-by.ts';
import { signOnScreen, stationScreen } from './station.ts';
import { takeUp } from './take-up.ts';
import { isTooSmall, tooSmall } from './too-small.ts';

/** The screen that belongs to this state of the program, laid out for this size. */
export function pageOf(app: App, size: Size): Page {
  if (isTooSmall(size)) return tooSmall(app, size);
  if (app.pin) return pinScreen(app, app.pin, size);
  if (app.lock) return lockScreen(app, app.lock, size);
  switch (app.layer?.layer) {
    case 'keys':
      return keyHelp(app, size);
    case 'form':
      return formScreen(app, app.layer.form, size);
    case 'draft':
      return draftScreen(app, app.layer, size);
    case 'look back':
      if (app.play) return lookBack(app, app.play, size);
      break;
    case 'picture': {
      const shown = pictureScreen(app, size);
      if (shown) return shown;
      break;
    }
    case 'one key':
    case undefined:
  }
  if (app.play) return atBundle(app, app.play, size);
  if (app.hand === null) return signOnScreen(app, size);
  return app.home === 'desk' ? deskScreen(app, size) : stationScreen(app, size);
}

function atBundle(app: App, play: Play, size: Size): Page {
  const { next } = play;
  const isFar = app.letters === 'big';
  switch (next.want) {
    case 'opening':
    case 'resuming':
      return takeUp(app, play, size);
    case 'settling':
      return hold(app, play, next.hold, size);
    case 'changes':
      return changes(app, play, next, size);
    case 'helping':
      return standBy(app, next, size);
    case 'bobbin':
      return freshBobbin(app, next, size);
    case 'caution':
      return caution(app, next, size);
    case 'point':
      return isFar ? far(app, play, next, size) : sewing(app, play, next, size);
    case 'finish':
      return isFar ? far(app, play, 'finish', size) : finish(app, play, size);
    case 'nothing':
      return finished(app, play, size);
    default:
      return assertNever(next);
  }
}
