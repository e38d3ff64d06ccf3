/** What a run tells the shell. */
export const exitCode = {
  well: 0,
  /** Something in the records is wrong. */
  problems: 1,
  /** The command was called wrongly, or the machine refused (a folder that cannot be written). */
  wrongUse: 2,
  /** A fault of this program's own. */
  ownFault: 3,
} as const;
export type ExitCode = (typeof exitCode)[keyof typeof exitCode];

/** Thrown for a wrong call: the message is for the user, whole, with how to mend it. */
export class WrongUse extends Error {}
