/** Whether two values say the same, whatever the order of their keys; a key that holds nothing is not there. */
export function sameContent(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b))
    return (
      Array.isArray(a) &&
      Array.isArray(b) &&
      a.length === b.length &&
      a.every((one, at) => sameContent(one, b[at]))
    );
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one).filter((key) => one[key] !== undefined);
  return (
    keys.length === Object.keys(other).filter((key) => other[key] !== undefined).length &&
    keys.every((key) => Object.hasOwn(other, key) && sameContent(one[key], other[key]))
  );
}
