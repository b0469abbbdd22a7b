import { assertNever } from '../base/assert-never.ts';
import { isBehind } from '../bundle/behind.ts';
import { openHold } from '../bundle/bundle.ts';
import type { Point } from '../procedure/procedure.ts';
import { type App, undoable } from './app.ts';
import { chosenDraft, chosenRow } from './desk.ts';
import { mayFold } from './fold.ts';
import { question } from './form.ts';
import type { Mode, Order } from './move.ts';
import { picturesAtHand } from './step-pictures.ts';

/** Which table of keys is in force. */
export function modeOf(app: App): Mode {
  if (app.ended !== null) return 'over';
  if (app.pin) return 'pin';
  if (app.lock) return 'locked';
  switch (app.layer?.layer) {
    case 'keys':
      return 'keys';
    case 'one key':
      return 'one key';
    case 'look back':
      return 'look back';
    case 'picture':
      return 'picture';
    case 'draft':
      return 'draft';
    case 'form':
      return question(app, app.layer.form)?.options ? 'form choice' : 'form words';
    case undefined:
  }
  if (!app.play) return app.hand === null ? 'sign on' : app.home === 'desk' ? 'desk' : 'station';
  const { next } = app.play;
  switch (next.want) {
    case 'caution':
      return 'caution';
    case 'changes':
      return 'changes';
    case 'settling':
      return 'hold';
    case 'bobbin':
    case 'finish':
      return app.field === '' ? 'value' : 'value begun';
    case 'helping':
      return 'words';
    case 'nothing':
      return 'finished';
    case 'opening':
    case 'resuming':
      return 'confirm';
    case 'point':
      return pointMode(next.point, app.field);
    default:
      return assertNever(next);
  }
}

function pointMode(point: Point, field: string): Mode {
  switch (point.kind) {
    case 'reading':
    case 'count':
      return field === '' ? 'value' : 'value begun';
    case 'written':
    case 'hold point':
      return 'words';
    case 'choice':
      return 'choice';
    case 'tick':
    case 'timed':
    case 'computed':
      return 'confirm';
    default:
      return assertNever(point);
  }
}

/** Text keys of these modes go into a field at once; in the others a burst of them may be a scanner. */
export const hearing = (mode: Mode): 'text' | 'commands' => (WITH_FIELD.has(mode) ? 'text' : 'commands');

const WITH_FIELD: ReadonlySet<Mode> = new Set([
  'sign on',
  'station',
  'words',
  'form words',
  'value begun',
  'pin',
  'locked',
]);

/** Whether an order would do anything now; the legend and the key help leave the others out. */
export function isOpen(app: App, order: Order): boolean {
  const { play } = app;
  switch (order) {
    case 'undo':
      return undoable(app) !== null;
    case 'go back':
      return play?.next.want === 'point' && play.next.outside !== null && play.next.at.step.facts.ifOut?.backTo != null;
    case 'settle':
      return play !== null && openHold(play.bundle) !== undefined;
    case 'hold':
      return play !== null && play.bundle.text !== null && openHold(play.bundle) === undefined;
    case 'picture':
      return picturesAtHand(play).length > 0;
    case 'strike':
      return app.layer?.layer === 'look back';
    case 'sign off':
      return play === null && app.hand !== null;
    case 'fold':
      return mayFold(app);
    case 'keep on': {
      const row = chosenRow(app);
      return row?.row === 'bundle' && isBehind(app.room, row.bundle);
    }
    case 'edit':
    case 'rehearse':
    case 'release':
    case 'findings':
    case 'reading':
    case 'compare':
      return play === null && chosenDraft(app) !== undefined;
    case 'bobbin':
      return play?.thread !== undefined && play.next.want === 'point';
    case 'look back':
    case 'note':
    case 'hand over':
      return play !== null;
    case 'one key':
    case 'big':
    case 'leave':
    case 'keys':
    case 'quit':
      return true;
    default:
      return assertNever(order);
  }
}
