/** Asking somebody who sits at a terminal. Undefined is no answer: left out, or the question broken off. */
export interface Dialogue {
  readonly choose: (
    question: string,
    choices: readonly { readonly label: string; readonly value: string }[],
  ) => Promise<string | undefined>;
  readonly write: (question: string) => Promise<string | undefined>;
}
