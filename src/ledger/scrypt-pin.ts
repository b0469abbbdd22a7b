import { scrypt, timingSafeEqual } from 'node:crypto';

/** What is kept of a PIN: scrypt (RFC 7914) of it, with salt and hash in hexadecimal. */
interface Sealed {
  readonly salt: string;
  readonly hash: string;
  readonly n: number;
  readonly r: number;
  readonly p: number;
}

/** 32 MiB for each try. It slows down whoever has the ledger's file; four digits it can't save from them. */
const COST = { n: 2 ** 15, r: 8, p: 1 } as const;

/** Bytes of chance that go into each. */
export const SALT_BYTES = 16;

/** The PIN as it is kept. `salt`: at least `SALT_BYTES` random bytes. */
export async function sealPin(pin: string, salt: Uint8Array): Promise<Sealed> {
  const hash = await derived(pin, salt, 32, COST);
  return { salt: Buffer.from(salt).toString('hex'), hash: hash.toString('hex'), ...COST };
}

/** Whether this is the PIN that was sealed; takes as long for a wrong one as for the right one. */
export async function isPin(pin: string, sealed: Sealed): Promise<boolean> {
  const kept = Buffer.from(sealed.hash, 'hex');
  return timingSafeEqual(await derived(pin, Buffer.from(sealed.salt, 'hex'), kept.length, sealed), kept);
}

/** On a thread of its own, so that the screen goes on meanwhile. */
function derived(
  pin: string,
  salt: Uint8Array,
  length: number,
  { n, r, p }: Pick<Sealed, 'n' | 'r' | 'p'>,
): Promise<Buffer> {
  const { promise, resolve, reject } = Promise.withResolvers<Buffer>();
  // Node refuses what takes more than 32 MiB unless it is told.
  scrypt(pin.normalize('NFC'), salt, length, { N: n, r, p, maxmem: 2 * 128 * n * r + 2 ** 20 }, (error, key) =>
    error ? reject(error) : resolve(key),
  );
  return promise;
}
