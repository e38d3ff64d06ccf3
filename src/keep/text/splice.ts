/** A change to a text: at an offset, so many characters out, a text in. */
export interface Splice {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

/** @example spliced('ab', { at: 1, remove: 0, insert: 'x' }) // → 'axb' */
export function spliced(text: string, { at, remove, insert }: Splice): string {
  return text.slice(0, at) + insert + text.slice(at + remove);
}
