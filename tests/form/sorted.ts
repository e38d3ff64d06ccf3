/** Words ticked in a list come in the order of the form, not in that of the ticking. */
export function sorted(value: unknown): unknown {
  if (Array.isArray(value))
    return value.every((one) => typeof one === 'string')
      ? value.toSorted((a, b) => (a < b ? -1 : 1))
      : value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, sorted(inner)]));
}
