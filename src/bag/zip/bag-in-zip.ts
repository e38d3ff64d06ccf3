import type { Problem } from '../../problem/problem.js';
import { type OpenFile, type Trouble, archiveProblem } from '../bag-form.js';
import { type BagFiles, piecesOf } from '../bag-files.js';
import { meetingPaths, pathTrouble } from '../path-trouble.js';
import { fileMode, localHeaderBytes, most } from './zip-of-bag.js';
import { fromRandomAccessReaderPromise, RandomAccessReader, type Entry } from 'yauzl';
import { mostFiles } from '../bag-in-folder.js';
import { terminal } from '../../problem/message.js';

/** A file as the zip's directory describes it. Nothing here is true until it is checked. */
interface ZipEntry {
  /** With the folder all files are in. One byte a character: what is not plain ASCII shows as some other sign. */
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
 * Checked: tests/bag/hostile-zips.test.ts
 */
async function zipListing(
  file: OpenFile,
): Promise<{ readonly entries: readonly ZipEntry[] } | { readonly unreadable: string }> {
  try {
    const zip = await fromRandomAccessReaderPromise(new Reader(file), file.bytes, {
      decodeStrings: false,
      validateEntrySizes: false,
      autoClose: false,
    });
    if (zip.entryCount > mostFiles)
      return { unreadable: terminal('archive.zip-says', { count: zip.entryCount }) };
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
      if (bytes.length < length) error = new Error(terminal('archive.zip-short'));
      else buffer.set(bytes, offset);
    } catch (thrown) {
      error = thrown instanceof Error ? thrown : new Error(String(thrown));
    }
    // Not at once: the library asks for the next from within.
    setImmediate(() => callback(error));
  }
}

/** A bag in a zip: its files, and the folder they are in. */
export interface BagInZip {
  readonly files: BagFiles;
  readonly folder: string;
}

const encrypted = 1;
/** Names are UTF-8; nothing else is set. */
const ourFlags = 0x08_00;
const stored = 0;

/**
 * The bag in a zip, where its directory is one this program writes; else what is wrong with it, and nothing is read on.
 *
 * Everything a zip can lie about is asked first: names that lead elsewhere, links, packed sizes, files that lie over
 * each other, secrets. No file is unpacked for it: in a zip of this program all of them stand as they are.
 *
 * Checked: tests/bag/hostile-zips.test.ts
 */
export async function bagInZip(
  file: OpenFile,
  zip: string,
): Promise<BagInZip | { readonly problems: readonly Problem[] }> {
  const listing = await zipListing(file);
  if ('unreadable' in listing)
    return { problems: [zipForm(zip, { way: 'unreadable', values: { reason: listing.unreadable } })] };
  const { entries } = listing;
  if (entries.length === 0) return { problems: [zipForm(zip, { way: 'empty' })] };
  const unsafe = [...entries.flatMap((entry) => entryTrouble(zip, entry)), ...meetingTroubles(zip, entries)];
  if (unsafe.length > 0) return { problems: unsafe };
  const form = layoutTrouble(file, entries);
  if (form !== undefined) return { problems: [zipForm(zip, form)] };

  const folder = entries[0]!.path.split('/')[0]!;
  const places = new Map(entries.map((entry) => [entry.path.slice(folder.length + 1), entry] as const));
  return {
    folder,
    files: {
      sizes: new Map([...places].map(([path, { bytes }]) => [path, bytes])),
      read: (path) => {
        const { headerAt, path: full, bytes } = places.get(path)!;
        const from = headerAt + localHeaderBytes + full.length;
        return piecesOf(file, from, from + bytes);
      },
    },
  };
}

function entryTrouble(zip: string, entry: ZipEntry): Problem[] {
  const shown = `${zip}/${entry.path}`;
  const unixKind = (entry.attributes >>> 16) & 0o170_000;
  if (unixKind === 0o120_000) return [archiveProblem('archive/link', shown, 'link-in-zip')];
  if (unixKind !== 0 && unixKind !== (fileMode & 0o170_000) && !entry.path.endsWith('/'))
    return [archiveProblem('archive/link', shown, 'other-in-zip')];
  if (entry.path.endsWith('/') && pathTrouble(entry.path.slice(0, -1)) === undefined)
    return [zipForm(zip, { way: 'folder', values: { path: entry.path } })];
  const trouble = pathTrouble(entry.path);
  if (trouble) return [archiveProblem('archive/unsafe-path', shown, trouble.way, trouble.values)];
  const packing = packingTrouble(entry);
  return packing === undefined ? [] : [zipForm(zip, { way: packing, values: { ...entry } })];
}

/** `growdown archive` squeezes nothing: whatever is squeezed is not its own, and could unpack to any size. */
function packingTrouble(entry: ZipEntry): string | undefined {
  const { flags, method, bytes, packedBytes } = entry;
  if (flags & encrypted) return 'locked';
  if (method !== stored) return 'squeezed';
  if (bytes > most.fileBytes) return 'too-large';
  if (bytes !== packedBytes) return 'two-sizes';
  if (flags !== ourFlags) return 'marks';
  return entry.extraBytes > 0 || entry.commentBytes > 0 ? 'remark' : undefined;
}

function meetingTroubles(zip: string, entries: readonly ZipEntry[]): Problem[] {
  const seen = new Set<string>();
  const twice = entries.filter(({ path }) => seen.size === seen.add(path).size);
  const meeting = meetingPaths(new Set(entries.map(({ path }) => path)));
  return [
    ...twice.map(({ path }) => archiveProblem('archive/unsafe-path', `${zip}/${path}`, 'twice')),
    ...[...meeting].map(([path, other]) =>
      archiveProblem('archive/unsafe-path', `${zip}/${path}`, 'meets', { other }),
    ),
  ];
}

/** Files lie one after the other from the first byte on, sorted, in one folder, and the directory follows. */
function layoutTrouble(file: OpenFile, entries: readonly ZipEntry[]): Trouble | undefined {
  let at = 0;
  let before = '';
  const folder = `${entries[0]!.path.split('/')[0]}/`;
  for (const { path, headerAt, bytes } of entries) {
    const values = { path, folder, found: headerAt, expected: at, bytes };
    if (!path.startsWith(folder)) return { way: 'other-folder', values };
    if (path <= before) return { way: 'order', values };
    if (headerAt !== at) return { way: 'begins-elsewhere', values };
    at += localHeaderBytes + path.length + bytes;
    before = path;
    if (at > file.bytes) return { way: 'too-long', values };
  }
  return undefined;
}

function zipForm(zip: string, { way, values }: Trouble): Problem {
  return archiveProblem('archive/zip-form', zip, way, values);
}
