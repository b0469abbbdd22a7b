/**
 * Keeps the answers to the last `most` different questions, told apart by a key; the one asked longest ago goes first. What is
 * asked for again, such as the picture behind every key that is typed, is not made again.
 */
export function remember<Answer>(most: number): (key: string, make: () => Answer) => Answer {
  const known = new Map<string, Answer>();
  return (key, make) => {
    const answer = known.has(key) ? (known.get(key) as Answer) : make();
    known.delete(key);
    known.set(key, answer);
    for (const oldest of known.keys()) {
      if (known.size <= most) break;
      known.delete(oldest);
    }
    return answer;
  };
}
