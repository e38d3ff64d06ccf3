import { createHash } from 'node:crypto';
import type { Problem } from '../problem/problem.js';
import { problemIn, terminal } from '../problem/message.js';
import { given } from '../record/given.js';
import type { Values } from '../reference/words.js';

/** The parts of a bag that are no payload, in order. Every bag of this program has these and no others. */
export const tagFiles = ['README.txt', 'bag-info.txt', 'bagit.txt', 'manifest-sha512.txt'] as const;
/** The checksums of the parts above. */
export const tagManifest = 'tagmanifest-sha512.txt';
/** What is kept lies under this folder. */
export const payload = 'data/';

/** RFC 8493, 2.1.1: nothing else may appear in it. */
export const bagitText = 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n';

/** What is under `data/`: how many bytes in how many files. */
export interface Oxum {
  readonly bytes: number;
  readonly files: number;
}

/** The labels of `bag-info.txt` (RFC 8493, 2.2.2), in their order; the day is YYYY-MM-DD. */
const labels = {
  sourceOrganization: 'Source-Organization',
  externalDescription: 'External-Description',
  externalIdentifier: 'External-Identifier',
  softwareAgent: 'Bag-Software-Agent',
  baggingDate: 'Bagging-Date',
  oxum: 'Payload-Oxum',
} as const;
export type BagInfo = Readonly<Record<Exclude<keyof typeof labels, 'oxum'>, string>>;

/** The one text of `bag-info.txt`: another that says the same is refused by the check. */
export function bagInfoText(info: BagInfo, { bytes, files }: Oxum): string {
  const values = { ...info, oxum: `${bytes}.${files}` };
  return Object.entries(labels)
    .map(([key, label]) => `${label}: ${oneLine(values[key as keyof typeof labels])}\n`)
    .join('');
}

/** What a `bag-info.txt` counts; undefined where it is not as `bagInfoText` writes it. */
export function readBagInfo(text: string): (Oxum & { readonly baggingDate: string }) | undefined {
  const lines = Object.entries(labels).map(([key, label]) => `${label}: (?<${key}>\\S[^\\r\\n]*)\\n`);
  const { baggingDate = '', oxum = '' } = new RegExp(`^${lines.join('')}$`).exec(text)?.groups ?? {};
  const [, bytes, files] = /^(\d{1,15})\.(\d{1,9})$/.exec(oxum) ?? [];
  return bytes === undefined ? undefined : { bytes: Number(bytes), files: Number(files), baggingDate };
}

/** A label's value takes one line; one left empty would be no value. */
function oneLine(value: string): string {
  return value.replaceAll(/\s+/g, ' ').trim() || terminal('archive.not-said');
}

/** Checksum by path. */
type Manifest = ReadonlyMap<string, string>;

/** What a manifest says, and the first line that is not as this program writes it. */
export interface ManifestRead {
  readonly entries: Manifest;
  readonly notOurForm: Trouble | undefined;
}

/** A manifest as this program writes it: sorted, two spaces, a line feed after every line. `sha512sum -c` reads it. */
export function manifestText(manifest: Manifest): string {
  return [...manifest]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([path, sha512]) => `${sha512}  ${path}\n`)
    .join('');
}

/**
 * Reads a manifest line by line; lines it cannot take are left out of the entries and named.
 *
 * Checked: tests/bag/verify-archive.test.ts
 */
export function readManifest(text: string): ManifestRead {
  const entries = new Map<string, string>();
  const wrong: Trouble[] = [];
  let before = '';
  const lines = text.split('\n');
  for (const [index, written] of lines.entries()) {
    const line = index + 1;
    const isLast = line === lines.length;
    if (isLast && written === '') break;
    const [, sha512, path] = /^([0-9a-f]{128}) {2}([^\r]+)$/.exec(written) ?? [];
    if (sha512 === undefined || path === undefined) wrong.push({ way: 'no-line', values: { line } });
    else {
      if (entries.has(path)) wrong.push({ way: 'listed-twice', values: { line, path } });
      else if (path <= before) wrong.push({ way: 'no-order', values: { line } });
      if (!entries.has(path)) entries.set(path, sha512);
      before = path;
    }
    if (isLast) wrong.push({ way: 'no-end', values: { line } });
  }
  return { entries, notOurForm: wrong[0] };
}

/** The SHA-512 of what comes piece by piece, as 128 small hexadecimal digits. */
export function sha512Of(pieces: Iterable<Uint8Array>): string {
  const hash = createHash('sha512');
  for (const piece of pieces) hash.update(piece);
  return hash.digest('hex');
}

/**
 * Whether two checksums are one and the same with a slip in one of them.
 *
 * Any change to a file, however small, changes nearly all digits of its checksum (of 128 about 8 stay by chance). Where
 * most are the same, it is the list of checksums that was changed, not the file.
 */
export function isSlipOf(a: string, b: string): boolean {
  if (a === b || a.length !== b.length) return false;
  return [...a].filter((digit, index) => digit === b[index]).length > 64;
}

/** One thing wrong with an archive. None can be put right by hand: there is another copy, or there is not. */
export function archiveProblem(
  id: `archive/${string}`,
  file: string,
  way?: string,
  values?: Values,
): Problem {
  return problemIn(file, id, values, given({ way }));
}

/** In which way something is not as it should be, and what its sentence names. */
export interface Trouble {
  readonly way: string;
  readonly values?: Values;
}

/** A file opened for reading, of which any part may be read. */
export interface OpenFile {
  readonly bytes: number;
  /** As many bytes as asked for; fewer only where the file ends. */
  readonly readAt: (offset: number, length: number) => Uint8Array;
  readonly close: () => void;
}

/** A file being written, from its beginning on. */
interface NewFile {
  readonly write: (bytes: Uint8Array) => void;
  /** On the disk when this returns. */
  readonly close: () => void;
}

/** What is at a path, a link as a link. */
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
  /** Makes the folders above it. Refuses where something of that name exists. */
  readonly create: (path: string) => NewFile;
  readonly rename: (from: string, to: string) => void;
  /** Removes what this run itself has begun to write. */
  readonly removeAll: (path: string) => void;
  /** Takes away what runs that were ended in the middle of their work left in a folder under a name with their word. */
  readonly sweep: (folder: string) => void;
  /** A word no other run has. */
  readonly token: () => string;
}
