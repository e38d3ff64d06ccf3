/**
 * For each thing those that stand before it and share a key with it, in order, each once.
 *
 * Looked up by key, so that a farm with thousands of animals is not compared pair by pair.
 *
 * @example earlierWithTheSame(['ab', 'c', 'b'], (word) => [...word]) // → [[], [], ['ab']]
 */
export function earlierWithTheSame<T>(things: readonly T[], keysOf: (thing: T) => readonly string[]): T[][] {
  const seen = new Map<string, T[]>();
  return things.map((thing) => {
    const keys = new Set(keysOf(thing));
    const earlier = new Set<T>();
    for (const key of keys) for (const other of seen.get(key) ?? []) earlier.add(other);
    for (const key of keys) {
      const sharing = seen.get(key);
      if (sharing) sharing.push(thing);
      else seen.set(key, [thing]);
    }
    return earlier.size > 1 ? things.filter((other) => earlier.has(other)) : [...earlier];
  });
}
