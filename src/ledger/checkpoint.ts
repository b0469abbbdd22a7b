import { ok, type Result, refuse } from '../base/result.ts';

/** What a ledger was at one moment: whose, how many entries, and the root of the tree over them. */
export interface Checkpoint {
  readonly origin: string;
  readonly size: number;
  /** 32 bytes. */
  readonly root: Uint8Array;
}

/** The text that is signed, as C2SP tlog-checkpoint has it. */
export const checkpointText = ({ origin, size, root }: Checkpoint): string =>
  `${origin}\n${size}\n${Buffer.from(root).toString('base64')}\n`;

/** Reads such a text; extension lines of others are passed over. */
export function readCheckpoint(text: string): Result<Checkpoint> {
  const wrong = (what: string) => refuse('checkpoint-unreadable', `This is no checkpoint: ${what}.`);
  if (!text.endsWith('\n')) return wrong('its last line is cut off');
  const [origin = '', digits = '', base64 = '', ...more] = text.slice(0, -1).split('\n');
  if (origin === '' || more.includes('')) return wrong('a line is empty');
  const size = Number(digits);
  if (!/^(0|[1-9]\d*)$/.test(digits) || !Number.isSafeInteger(size))
    return wrong('its second line is no number of entries');
  const root = Buffer.from(base64, 'base64');
  if (root.length !== 32 || root.toString('base64') !== base64) return wrong('its third line is no root');
  return ok({ origin, size, root });
}
