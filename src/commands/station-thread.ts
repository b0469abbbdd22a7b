import type { ThreadOf } from '../app/perform.ts';
import type { StepId } from '../base/brand.ts';
import type { StationThread } from '../bundle/bobbin.ts';
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
    const { measurable } = await import('../drawing/measurable.ts');
    const { drawings } = measurable(await keptPictures(procedure, store));
    const steps = procedureThread(procedure, drawings, room);
    const whole = steps.filter(({ unknown }) => unknown.length === 0);
    return {
      full,
      takes: new Map(whole.map(({ step, thread }): readonly [StepId, typeof thread.under] => [step.id, thread.under])),
    };
  }
}

/** The pictures that were kept with a released procedure, by their addresses. */
async function keptPictures(
  { steps }: Procedure,
  store: Pick<LedgerStore, 'kept'>,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const pictures = new Map<string, Uint8Array>();
  for (const { address, digest } of steps.flatMap((step) => step.pictures)) {
    const kept = digest === undefined || pictures.has(address) ? undefined : await store.kept(digest);
    if (kept) pictures.set(address, kept.bytes);
  }
  return pictures;
}
