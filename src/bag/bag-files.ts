import type { ArchiveDisk, OpenFile } from './bag-form.js';

/** The files of a bag, wherever they lie: in a folder, in a zip, or about to be written. Paths go from the bag's own folder, with `/`. */
export interface BagFiles {
  /** Bytes of each file by its path. */
  readonly sizes: ReadonlyMap<string, number>;
  /** The file in pieces, as it is read. */
  readonly read: (path: string) => Iterable<Uint8Array>;
}

/** So much of a file is in memory at a time, bytes. */
const piece = 1 << 20;

/** A stretch of an open file, piece by piece. */
export function* piecesOf(file: OpenFile, from = 0, to = file.bytes): Generator<Uint8Array> {
  for (let at = from; at < to;) {
    const bytes = file.readAt(at, Math.min(piece, to - at));
    if (bytes.length === 0) throw new Error('the file became shorter while it was read');
    yield bytes;
    at += bytes.length;
  }
}

/** A whole file at once. For what is known to be small, and for what a zip needs whole. */
export function wholeFile(files: BagFiles, path: string): Buffer {
  const pieces = [...files.read(path)];
  // A file of one piece need not be there twice.
  return pieces.length === 1
    ? Buffer.from(pieces[0]!.buffer, pieces[0]!.byteOffset, pieces[0]!.length)
    : Buffer.concat(pieces);
}

/** No list, label, case file or ledger is larger; bytes. Whoever makes a larger one could fill the memory with it. */
const largestText = 100_000_000;

/** A small file whole; undefined where it is too large to be one. */
export function smallFile(files: BagFiles, path: string): Buffer | undefined {
  return (files.sizes.get(path) ?? 0) > largestText ? undefined : wholeFile(files, path);
}

/** A file opened, looked at and closed again in any case. */
export function withFile<T>(disk: Pick<ArchiveDisk, 'open'>, path: string, look: (file: OpenFile) => T): T {
  const file = disk.open(path);
  try {
    return look(file);
  } finally {
    file.close();
  }
}
