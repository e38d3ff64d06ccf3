import { fromRandomAccessReaderPromise, RandomAccessReader } from 'yauzl';
import type { Entry } from 'yauzl';
import type { OpenFile } from '../archive-disk.js';
import { mostFiles } from '../bag/bag-in-folder.js';

/** A file as the zip's directory tells of it. Nothing here is true until it is checked. */
export interface ZipEntry {
  /** With the folder all files stand in. One byte a character: what is not plain ASCII shows as some other sign. */
  readonly path: string;
  readonly bytes: number;
  readonly packedBytes: number;
  readonly method: number;
  readonly flags: number;
  readonly headerAt: number;
  /** Upper half: what Unix calls the mode. */
  readonly attributes: number;
  readonly extraBytes: number;
  readonly commentBytes: number;
}

/**
 * What a zip's directory lists. No file in it is opened or unpacked.
 *
 * Shape:   an open file → its entries as listed, or why it is no zip that can be read
 * Checked: tests/archive/hostile-zips.test.ts
 */
export async function zipListing(
  file: OpenFile,
): Promise<{ readonly entries: readonly ZipEntry[] } | { readonly unreadable: string }> {
  try {
    const zip = await fromRandomAccessReaderPromise(new Reader(file), file.bytes, {
      decodeStrings: false,
      validateEntrySizes: false,
      autoClose: false,
    });
    if (zip.entryCount > mostFiles) return { unreadable: `it says it holds ${zip.entryCount} files` };
    const entries: ZipEntry[] = [];
    for await (const entry of zip.eachEntry()) entries.push(asListed(entry));
    return { entries };
  } catch (error) {
    return { unreadable: error instanceof Error ? error.message : String(error) };
  }
}

function asListed(entry: Entry): ZipEntry {
  return {
    path: entry.fileNameRaw.toString('latin1'),
    bytes: entry.uncompressedSize,
    packedBytes: entry.compressedSize,
    method: entry.compressionMethod,
    flags: entry.generalPurposeBitFlag,
    headerAt: entry.relativeOffsetOfLocalHeader,
    attributes: entry.externalFileAttributes,
    extraBytes: entry.extraFieldLength,
    commentBytes: entry.fileCommentLength,
  };
}

/** Lets the library read from a file that is already open. */
class Reader extends RandomAccessReader {
  constructor(private readonly file: OpenFile) {
    super();
  }

  override read(
    buffer: Buffer,
    offset: number,
    length: number,
    position: number,
    callback: (error: Error | null) => void,
  ): void {
    let error: Error | null = null;
    try {
      const bytes = this.file.readAt(position, length);
      if (bytes.length < length) error = new Error('it ends too early');
      else buffer.set(bytes, offset);
    } catch (thrown) {
      error = thrown instanceof Error ? thrown : new Error(String(thrown));
    }
    // Not at once: the library asks for the next from within.
    setImmediate(() => callback(error));
  }
}
