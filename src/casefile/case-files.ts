/** What stands at a path. A link is named as such; whatever it leads to is asked for by `realPath`. */
export type EntryKind = 'file' | 'folder' | 'link' | 'other';

export interface CaseEntry {
  readonly name: string;
  readonly kind: EntryKind;
}

/**
 * The files of the trimmer, as far as reading needs them: small, synchronous, no writing.
 *
 * Paths are as the user's system takes them, joined with `/`. Everything may throw where the system refuses;
 * the reader turns that into a problem of that one file.
 */
export interface CaseFiles {
  /**
   * What stands there with links followed, its size, and where the system tells it when it was changed last, ms since
   * 1970; undefined where nothing stands there.
   */
  readonly look: (
    path: string,
  ) => { readonly kind: EntryKind; readonly bytes: number; readonly changedAt?: number } | undefined;
  /** The entries of a folder, sorted by name in code-unit order. */
  readonly list: (folder: string) => readonly CaseEntry[];
  readonly read: (path: string) => Uint8Array;
  /** The first bytes of a file, as many as there are up to `bytes`. */
  readonly readStart: (path: string, bytes: number) => Uint8Array;
  /** The path with every link followed, joined with `/`; undefined where nothing stands or the links go in a circle. */
  readonly realPath: (path: string) => string | undefined;
}
