/** The largest of any number of values, and never less than `atLeast`. @example largest([3, 7], 5) // → 7 */
export function largest(values: Iterable<number>, atLeast = Number.NEGATIVE_INFINITY): number {
  let most = atLeast;
  for (const value of values) most = Math.max(most, value);
  return most;
}

/** The smallest of any number of values, and never more than `atMost`. @example smallest([3, 7], 5) // → 3 */
export function smallest(values: Iterable<number>, atMost = Number.POSITIVE_INFINITY): number {
  let least = atMost;
  for (const value of values) least = Math.min(least, value);
  return least;
}
