import type { Readable } from 'node:stream';
import { setImmediate } from 'node:timers/promises';
import { ZipFile } from 'yazl';
import { type BagFiles, wholeFile } from '../bag-files.js';
import { terminal } from '../../problem/message.js';

/** Bytes of a file's header in the zip, without its name (APPNOTE 4.3.7). */
export const localHeaderBytes = 30;
/** Bytes of a file's line in the zip's directory, without its name (APPNOTE 4.3.12). */
export const directoryLineBytes = 46;

/** An ordinary file everybody may read. */
export const fileMode = 0o100_644;

/** Beyond these a zip changes its form (ZIP64), which not every program reads, and the library takes no larger file whole. */
export const most = { zipBytes: 4_000_000_000, files: 65_000, fileBytes: 1_000_000_000 } as const;

/** Why the bag at a place does not become a zip; undefined where it does. */
export function zipRefusal({ sizes }: BagFiles, place: string): string | undefined {
  const bytes = [...sizes.values()].reduce((sum, one) => sum + one, 0);
  if (bytes > most.zipBytes) return terminal('archive.zip-too-large', { place });
  if (sizes.size > most.files) return terminal('archive.zip-too-many', { place, most: most.files });
  const large = [...sizes].find(([, one]) => one > most.fileBytes);
  return large && terminal('archive.zip-large-file', { place, file: large[0] });
}

/**
 * The one zip that a bag makes: its files in the order of their paths, unpacked as they are, without times or owners.
 *
 * Nothing is squeezed: pictures and PDFs would not get smaller, a damaged byte costs one file and not the rest, and the
 * same files give the same bytes whatever version of a compressor is at hand, in fifty years too.
 *
 * Shape:   files, and the folder they are in within the zip → the zip's bytes, piece by piece
 * Checked: tests/bag/on-a-real-disk.test.ts
 */
export async function* zipOfBag(files: BagFiles, folder: string): AsyncGenerator<Uint8Array> {
  const zip = new ZipFile();
  const made = (zip.outputStream as Readable)[Symbol.asyncIterator]() as AsyncIterator<Uint8Array>;
  for (const path of [...files.sizes.keys()].sort()) {
    const content = wholeFile(files, path);
    zip.addBuffer(content, `${folder}/${path}`, {
      compress: false,
      // The library counts days where the computer is: the first day a zip can name, there.
      mtime: new Date(1980, 0, 1),
      forceDosTimestamp: true,
      mode: fileMode,
    });
    // One file after the other, each taken before the next is read: one file at a time is in memory.
    for (let due = localHeaderBytes + folder.length + 1 + path.length + content.length; due > 0;) {
      const { value } = await made.next();
      due -= value.length;
      yield value;
    }
    forgetContent(zip);
    // What the library does next waits for its turn, and holds on to the file until it has had it.
    await setImmediate();
  }
  zip.end();
  for (let next = await made.next(); next.done !== true; next = await made.next()) yield next.value;
}

/** The library holds on to every file until the zip ends, by the way it would write it; once written it need not. */
function forgetContent(zip: ZipFile): void {
  const { entries } = zip as unknown as { entries?: { doFileDataPump?: unknown }[] };
  const last = entries?.at(-1);
  if (last) delete last.doFileDataPump;
}
