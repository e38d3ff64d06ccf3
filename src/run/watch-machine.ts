/** What watching for saved files needs of the machine; a test hands in its own. */
export interface WatchMachine {
  /**
   * Tells of every file under a folder that was saved, is new or is gone, by its path from there with `/`; resolves once
   * nothing saved from then on is missed. The function it gives ends it.
   */
  readonly watch: (folder: string, onSaved: (path: string) => void) => Promise<() => Promise<void>>;
  /** Resolves when the user wants the program to end. */
  readonly stopped: Promise<void>;
  /** A clock for how long something took, and for nothing else. */
  readonly milliseconds: () => number;
}
