import type { ThreadOf } from '../app/perform.ts';
import type { Digest, StepId } from '../base/brand.ts';
import type { StationThread } from '../bundle/bobbin.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { RoomSettings } from '../storage/settings.ts';
import { roomThread } from '../storage/thread-settings.ts';

/**
 * What the station reckons of its bobbins for a released procedure, by the drawings that were kept with it; undefined where the room does
 * not reckon with bobbins. Each text is reckoned once.
 */
export function stationThread(settings: RoomSettings, store: Pick<LedgerStore, 'kept'>): ThreadOf {
  const room = roomThread(settings);
  const known = new WeakMap<Procedure, Promise<StationThread>>();
  const full = room.bobbin;
  if (full === null) return async () => undefined;
  return (procedure) => {
    const before = known.get(procedure);
    if (before) return before;
    const reckoned = reckon(procedure, full);
    known.set(procedure, reckoned);
    return reckoned;
  };

  async function reckon(procedure: Procedure, full: StationThread['full']): Promise<StationThread> {
    // Loaded when a bundle is taken up: no screen before that shows a seam.
    const { procedureThread } = await import('../thread/procedure-thread.ts');
    const steps = procedureThread(procedure, await drawingsOf(procedure, store), room);
    const whole = steps.filter(({ unknown }) => unknown.length === 0);
    return {
      full,
      takes: new Map(whole.map(({ step, thread }): readonly [StepId, typeof thread.under] => [step.id, thread.under])),
    };
  }
}

/** The drawings of a released procedure that can be measured, by their addresses. */
async function drawingsOf(
  { steps }: Procedure,
  store: Pick<LedgerStore, 'kept'>,
): Promise<ReadonlyMap<string, Drawing>> {
  const { isToScale, readDrawing } = await import('../drawing/read-drawing.ts');
  const digests = new Map<string, Digest>();
  for (const { address, digest } of steps.flatMap(({ pictures }) => pictures))
    if (digest !== undefined && address.toLowerCase().endsWith('.svg')) digests.set(address, digest);
  const drawings = new Map<string, Drawing>();
  for (const [address, digest] of digests) {
    const kept = await store.kept(digest);
    const read = kept && readDrawing(new TextDecoder().decode(kept.bytes), address);
    if (read && isToScale(read)) drawings.set(address, read.drawing);
  }
  return drawings;
}
