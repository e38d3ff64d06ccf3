import { PlainScalar } from './plain-scalar.js';

const longest = 40;

/** A value out of a file as a message shows it: in code marks, on one line, cut where long. */
export function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (value instanceof PlainScalar) return shown(value.source);
  if (typeof value === 'object' && value !== null) return 'a group of keys';
  if (value === null || value === undefined) return 'nothing';
  const plain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
  const text = [...(plain ? String(value) : typeof value).replaceAll(/\s+/g, ' ').trim()];
  return text.length > longest ? `\`${text.slice(0, longest).join('')}…\`` : `\`${text.join('')}\``;
}

/** Words in a row: `a`, `b` or `c`. */
export function wordsInRow(words: readonly string[]): string {
  const marked = words.map((word) => `\`${word}\``);
  return marked.length < 2 ? marked.join('') : `${marked.slice(0, -1).join(', ')} or ${marked.at(-1)}`;
}
