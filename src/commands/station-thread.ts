import type { ThreadOf } from '../app/perform.ts';
import type { Playing } from '../app/room-ledger.ts';
import type { StationThread } from '../bundle/bobbin.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { RoomSettings } from '../storage/settings.ts';
import { roomThread } from '../storage/thread-settings.ts';
import type { FindPicture } from './find-picture.ts';

/**
 * What the station reckons of its bobbins for the text that is played, by the drawings it shows; undefined where the room does not reckon
 * with bobbins. Each text is reckoned once.
 */
export function stationThread(settings: RoomSettings, find: FindPicture): ThreadOf {
  const room = roomThread(settings);
  const known = new WeakMap<Procedure, Promise<StationThread>>();
  const full = room.bobbin;
  if (full === null) return async () => undefined;
  return (playing) => {
    const before = known.get(playing.procedure);
    if (before) return before;
    const reckoned = reckon(playing, full);
    known.set(playing.procedure, reckoned);
    return reckoned;
  };

  async function reckon(playing: Playing, full: StationThread['full']): Promise<StationThread> {
    // Loaded when a bundle is taken up: no screen before that shows a seam.
    const { procedureThread } = await import('../thread/procedure-thread.ts');
    const { measurable } = await import('../drawing/measurable.ts');
    const found = new Map<string, Uint8Array>();
    for (const picture of playing.procedure.steps.flatMap(({ pictures }) => pictures)) {
      const { address } = picture;
      const bytes = found.has(address) ? undefined : await find(picture);
      if (bytes?.ok) found.set(address, bytes.value.bytes);
    }
    const { drawings } = measurable(found);
    const steps = procedureThread(playing.procedure, drawings, room);
    const sewn = steps.filter(({ under }) => under === 'bobbin');
    const takes = sewn.map(
      ({ step, thread, unknown }) => [step.id, unknown.length === 0 ? thread.under : null] as const,
    );
    return { full, takes: new Map(takes) };
  }
}
