/** Words in a row for a message. @example oneOf(['open', 'covered', 'healed']) // → 'open, covered or healed' */
export function oneOf(words: Iterable<string>): string {
  const all = [...words];
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} or ${all.at(-1)}`;
}
