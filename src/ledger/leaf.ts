import { hash } from 'node:crypto';
import type { Digest } from '../base/brand.ts';

/** Leaf hash of an entry's canonical text: SHA-256(0x00 ‖ UTF-8 bytes), as RFC 6962 section 2.1 and RFC 9162 section 2.1.1. */
export const leafDigest = (text: string): Digest => hash('sha256', `\0${text}`, 'hex') as Digest;

/** SHA-256 of the bytes as they are: the name under which a released text or picture is kept. */
export const digestOf = (bytes: Uint8Array): Digest => hash('sha256', bytes, 'hex') as Digest;
