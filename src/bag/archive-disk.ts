/** A file opened for reading, of which any part may be read. */
export interface OpenFile {
  readonly bytes: number;
  /** As many bytes as asked for; fewer only where the file ends. */
  readonly readAt: (offset: number, length: number) => Uint8Array;
  readonly close: () => void;
}

/** A file being written, from its beginning on. */
export interface NewFile {
  readonly write: (bytes: Uint8Array) => void;
  /** On the disk when this returns. */
  readonly close: () => void;
}

/** What stands at a path, a link as a link. */
export type Standing = 'file' | 'folder' | 'link' | 'other';

/**
 * What reading and writing archives needs of the machine. Files go through it in pieces, so that memory stays flat
 * however much a farm has kept. All of it may throw where the system refuses.
 */
export interface ArchiveDisk {
  readonly look: (path: string) => Standing | undefined;
  /** Sorted by name in code-unit order. */
  readonly list: (folder: string) => readonly { readonly name: string; readonly kind: Standing }[];
  readonly open: (path: string) => OpenFile;
  /** Makes the folders above it. Refuses where something of that name stands. */
  readonly create: (path: string) => NewFile;
  readonly rename: (from: string, to: string) => void;
  /** Removes what this run itself has begun to write. */
  readonly removeAll: (path: string) => void;
  /** Takes away what runs that were ended in the middle of their work left in a folder under a name with their word. */
  readonly sweep: (folder: string) => void;
  /** A word no other run has. */
  readonly token: () => string;
}
