import { StringDecoder } from 'node:string_decoder';
import { afterBurst, burstDeadline, collect, type Hearing, initialBurst } from '../keys/bursts.ts';
import type { Key } from '../keys/key.ts';
import { afterLean, initialLean, lean, leanDeadline } from '../keys/leaning.ts';
import { afterQuiet, initialSplit, splitDeadline, splitKeys } from '../keys/split-keys.ts';
import { noAnswers, withAnswer } from './graphics.ts';

/** The part of standard input that is needed; its chunks are bytes, not text. */
interface ByteSource {
  on(event: 'data', fn: (bytes: Buffer) => void): unknown;
  off(event: 'data', fn: (bytes: Buffer) => void): unknown;
}

/**
 * Reads keys until the answer is called: bytes to text to keys, held Enters marked, scans told from typing. Each of the
 * reducers says until when it wants to wait, and one timer serves them all. `hearing` is asked anew for every key. What the
 * terminal answers to a question, however late, goes to `onAnswer` and disturbs no key.
 */
export function readKeys(
  source: ByteSource,
  fn: (key: Key) => void,
  hearing: () => Hearing,
  onAnswer: (bytes: string) => void = () => {},
): () => void {
  const decoder = new StringDecoder('utf8');
  let split = initialSplit;
  let leaning = initialLean;
  let burst = initialBurst;
  let timer: NodeJS.Timeout | undefined;
  let reading: 'yes' | 'no' = 'yes';

  const toBursts = (key: Key, ms: number): void => {
    const [next, keys] = collect(burst, key, ms, hearing());
    burst = next;
    keys.forEach(fn);
  };
  const toLeaning = (key: Key, ms: number): void => {
    if (key.key === 'unknown' && withAnswer(noAnswers, key.bytes) !== null) {
      onAnswer(key.bytes);
      return;
    }
    const [next, keys] = lean(leaning, key, ms);
    leaning = next;
    for (const one of keys) toBursts(one, ms);
  };
  const hear = (bytes: Buffer): void => {
    const ms = performance.now();
    const [next, keys] = splitKeys(split, decoder.write(bytes), ms);
    split = next;
    for (const key of keys) toLeaning(key, ms);
    schedule();
  };
  const wake = (): void => {
    const ms = performance.now();
    const [nextSplit, keys] = afterQuiet(split, ms);
    split = nextSplit;
    for (const key of keys) toLeaning(key, ms);
    const [nextLeaning, enters] = afterLean(leaning, ms);
    leaning = nextLeaning;
    for (const enter of enters) toBursts(enter, ms);
    const [nextBurst, given] = afterBurst(burst, ms);
    burst = nextBurst;
    given.forEach(fn);
    schedule();
  };
  const schedule = (): void => {
    clearTimeout(timer);
    if (reading === 'no') return;
    const waits = [splitDeadline(split), leanDeadline(leaning), burstDeadline(burst)].filter(
      (one) => one !== undefined,
    );
    if (waits.length === 0) return;
    timer = setTimeout(wake, Math.max(0, Math.ceil(Math.min(...waits) - performance.now())));
  };

  source.on('data', hear);
  return () => {
    reading = 'no';
    clearTimeout(timer);
    source.off('data', hear);
  };
}
