/** The words of a trouble without its place: what was found and expected, and how to mend it. */
export interface Said {
  readonly id: string;
  readonly message: string;
  readonly mend: string;
}
