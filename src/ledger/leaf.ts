import { createHash } from 'node:crypto';
import type { Digest } from '../base/brand.ts';

const LEAF = Uint8Array.of(0);

/** Leaf hash of an entry's canonical text: SHA-256(0x00 ‖ UTF-8 bytes), as RFC 6962 section 2.1 and RFC 9162 section 2.1.1. */
export function leafDigest(text: string): Digest {
  return createHash('sha256').update(LEAF).update(text, 'utf8').digest('hex') as Digest;
}

/** SHA-256 of the bytes as they are: the name under which a released text or picture is kept. */
export function digestOf(bytes: Uint8Array): Digest {
  return createHash('sha256').update(bytes).digest('hex') as Digest;
}
