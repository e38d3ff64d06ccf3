/** Somebody who sits at a terminal and can be asked. Undefined is no answer: left out, or the question broken off. */
export interface Dialogue {
  readonly show: (text: string) => void;
  /** One line, perhaps an empty one; `check` says what is wrong with it, and it is asked again. `before` is kept by Enter. */
  readonly line: (
    question: string,
    check: (typed: string) => string | undefined,
    before?: string,
  ) => Promise<string | undefined>;
  readonly choose: (
    question: string,
    choices: readonly { readonly label: string; readonly value: string }[],
  ) => Promise<string | undefined>;
}

/**
 * A text for a terminal of so many columns: lines that are longer are broken between words and go on as far in as they began.
 *
 * @example wrapped('  one two three', 11) // → '  one two\n  three'
 */
export function wrapped(text: string, columns: number): string {
  return text
    .split('\n')
    .flatMap((line) => {
      const indent = /^ */.exec(line)?.[0] ?? '';
      const lines: string[] = [];
      let now = indent;
      for (const word of line.trim().split(' ')) {
        if (now.trim() !== '' && now.length + 1 + word.length > columns) {
          lines.push(now);
          now = indent;
        }
        now += now.trim() === '' ? word : ` ${word}`;
      }
      return [...lines, now];
    })
    .join('\n');
}
