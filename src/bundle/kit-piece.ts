import { ok, type Result, refuse } from '../base/result.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { Bundle } from './bundle.ts';
import { named } from './same-name.ts';

/** A piece of a bundle by its own name, and the piece of the kit that it is or was cut anew for; none where the text lists no kit. */
export interface KitPiece {
  readonly piece: string;
  readonly kit?: string;
}

/** The piece that somebody means by what they typed: one of the kit, or one that was cut anew for it before. Without a kit any is good. */
export function kitPiece(
  { kit }: Pick<Procedure, 'kit'>,
  { ticket, holds }: Pick<Bundle, 'ticket' | 'holds'>,
  typed: string,
): Result<KitPiece> {
  if (kit.length === 0) return ok({ piece: typed });
  const standsFor = new Map(kit.map(({ id }) => [id, id]));
  for (const { settled } of holds) {
    if (settled?.how.as !== 'recut') continue;
    const { piece, newPiece } = settled.how;
    const id = standsFor.get(named(standsFor.keys(), piece) ?? '');
    if (id !== undefined) standsFor.set(newPiece, id);
  }
  const piece = named(standsFor.keys(), typed);
  const id = piece === undefined ? undefined : standsFor.get(piece);
  if (piece !== undefined && id !== undefined) return ok({ piece, kit: id });
  return refuse('no-such-piece', 'The kit of {ticket} has no piece {piece}: name one of {pieces}.', {
    ticket,
    piece: typed,
    pieces: [...standsFor.keys()].join(', '),
  });
}
