/** Numbers from 0 up to 1 that look thrown but come out the same for the same seed: a linear congruential generator modulo 2^32. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    // Multiplier and increment as in Knuth, The Art of Computer Programming, vol. 2, 3.3.4, from memory.
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
