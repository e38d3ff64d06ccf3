/** Somebody who sits at a terminal and can be asked. Undefined is no answer: left out, or the question broken off. */
export interface Dialogue {
  readonly show: (text: string) => void;
  /** One line, perhaps an empty one; `check` says what is wrong with it, and it is asked again. */
  readonly line: (
    question: string,
    check: (typed: string) => string | undefined,
  ) => Promise<string | undefined>;
  readonly choose: (
    question: string,
    choices: readonly { readonly label: string; readonly value: string }[],
  ) => Promise<string | undefined>;
}
