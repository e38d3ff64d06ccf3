/**
 * For each thing those that stand before it and share a key with it, in order, each once.
 *
 * Looked up by key, so that a farm with thousands of animals is not compared pair by pair.
 *
 * @example earlierWithTheSame(['ab', 'c', 'b'], (word) => [...word]) // → [[], [], ['ab']]
 */
export function earlierWithTheSame<T>(things: readonly T[], keysOf: (thing: T) => readonly string[]): T[][] {
  const placesOf = new Map<string, number[]>();
  return things.map((thing, place) => {
    const earlier = new Set<number>();
    for (const key of new Set(keysOf(thing))) {
      const places = placesOf.get(key) ?? [];
      for (const other of places) earlier.add(other);
      places.push(place);
      placesOf.set(key, places);
    }
    return [...earlier].toSorted((a, b) => a - b).map((other) => things[other]!);
  });
}
