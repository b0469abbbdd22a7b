import type { HandId, ProcedureId, TicketId } from '../../base/brand.ts';
import { happens, type Stage } from './stage.ts';

export const LIN = 'LIN-2207' as ProcedureId;
export const CUS = 'CUS-0412' as ProcedureId;
export const HOD = 'HOD-0931' as ProcedureId;
export const CUT = 'CUT-0100' as ProcedureId;

/** Ties a ticket to a kit. */
export async function ties(
  stage: Stage,
  hand: HandId,
  kit: {
    readonly ticket: string;
    readonly procedure: ProcedureId;
    readonly sets: number;
    readonly rolls: readonly string[];
  },
): Promise<void> {
  stage.time.pass(60);
  const ticket = kit.ticket as TicketId;
  await happens(stage, ticket, { do: 'make ticket', hand, ...kit, ticket });
}
