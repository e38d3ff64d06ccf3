import type { Problem } from '../../problem/problem.js';
import {
  type ArchiveDisk,
  type OpenFile,
  archiveProblem,
  bagitText,
  payload,
  readBagInfo,
  tagManifest,
  readManifest,
} from '../bag-form.js';
import { bagInFolder } from '../bag-in-folder.js';
import { type BagFiles, smallFile } from '../bag-files.js';
import { bagInZip, type BagInZip } from '../zip/bag-in-zip.js';
import { directoryLineBytes, localHeaderBytes, zipOfBag } from '../zip/zip-of-bag.js';
import { meetingPaths, pathTrouble } from '../path-trouble.js';
import { checkPayload, checkTags } from './check-bag.js';

/** An archive and what was found of it. */
export interface ArchiveVerified {
  readonly problems: readonly Problem[];
  readonly files: BagFiles;
  /** Payload paths (with `data/`) that are there, listed and unchanged: what may be looked into further. */
  readonly sound: ReadonlySet<string>;
  /** How a path in it is shown to the user. */
  readonly shown: (path: string) => string;
}

/** Looks into a sound archive further, before it is closed. */
type LookFurther = (archive: ArchiveVerified) => readonly Problem[];

/**
 * Checks an archive, a bag's folder or the zip of one. Nothing is written, and nothing outside it is opened.
 *
 * Shape:   where it lies → what is wrong; undefined where nothing is there
 * Checked: tests/bag/verify-archive.test.ts
 */
export async function verifyArchive(
  disk: ArchiveDisk,
  path: string,
  lookFurther: LookFurther = () => [],
): Promise<{ readonly problems: readonly Problem[]; readonly files: number } | undefined> {
  const standing = disk.look(path);
  const shown = (file: string): string => `${path}/${file}`;
  const looked = (files: BagFiles, sound: ReadonlySet<string>, problems: readonly Problem[]) => ({
    problems: [...problems, ...lookFurther({ files, shown, sound, problems })],
    files: files.sizes.size,
  });
  if (standing === 'folder') {
    const { files, problems } = bagInFolder(disk, path);
    const checked = checkBag(files, shown);
    return looked(files, checked.sound, [...problems, ...checked.problems]);
  }
  if (standing === undefined) return undefined;
  if (standing !== 'file')
    return { problems: [archiveProblem('archive/no-archive', path, 'no-file')], files: 0 };
  const file = disk.open(path);
  try {
    const bag = await bagInZip(file, path);
    if ('problems' in bag) return { problems: bag.problems, files: 0 };
    const checked = checkBag(bag.files, shown);
    const troubled = new Set(checked.problems.map((problem) => problem.file));
    const container = await compareZip(file, bag, path, (inner) => troubled.has(shown(inner)));
    return looked(bag.files, checked.sound, [...checked.problems, ...container]);
  } finally {
    file.close();
  }
}

/** A stretch of the zip and what is there. */
interface Stretch {
  readonly to: number;
  /** Undefined for the end of the zip, which is about all of it. */
  readonly path?: string;
  /** The way of it in `problem.archive/zip-form`. */
  readonly way: string;
}

/**
 * Writes the zip again from what is in it and holds the two against each other, byte for byte.
 *
 * A zip has room for much that no reader looks at; this way nothing can hide in it, and nothing in it can change.
 *
 * Shape:   an open zip, the bag in it, what is known to be wrong → each stretch that differs, named by the file it is about
 * Checked: tests/bag/changed-bytes.test.ts
 */
async function compareZip(
  file: OpenFile,
  bag: BagInZip,
  zip: string,
  troubled: (path: string) => boolean,
): Promise<Problem[]> {
  const stretches = stretchesOf(bag);
  const differing = new Map<Stretch, number>();
  let at = 0;
  let stretch = 0;
  for await (const made of zipOfBag(bag.files, bag.folder)) {
    const found = file.readAt(at, made.length);
    if (!Buffer.from(found.buffer, found.byteOffset, found.length).equals(made))
      for (let index = 0; index < made.length; index += 1) {
        while (at + index >= stretches[stretch]!.to && stretch < stretches.length - 1) stretch += 1;
        const here = stretches[stretch]!;
        if (found[index] !== made[index] && !differing.has(here)) differing.set(here, at + index);
      }
    at += made.length;
  }
  const problems = [...differing]
    .filter(([{ path }]) => path === undefined || !troubled(path))
    .map(([{ way, path = '' }, byte]) => archiveProblem('archive/zip-form', zip, way, { byte, path }));
  if (file.bytes > at)
    problems.push(archiveProblem('archive/zip-form', zip, 'more-after', { bytes: file.bytes - at }));
  return problems;
}

function stretchesOf({ files, folder }: BagInZip): Stretch[] {
  const paths = [...files.sizes.keys()].sort();
  const name = (path: string): number => folder.length + 1 + path.length;
  let at = 0;
  const stretches: Stretch[] = [];
  for (const path of paths) {
    at += localHeaderBytes + name(path) + files.sizes.get(path)!;
    stretches.push({ to: at, path, way: 'before-file' });
  }
  for (const path of paths) {
    at += directoryLineBytes + name(path);
    stretches.push({ to: at, path, way: 'directory-line' });
  }
  return [...stretches, { to: Infinity, way: 'directory-end' }];
}

/**
 * Holds a bag against what it says of itself: every file there, none besides, each checksum, the counts, and the lists
 * and labels in exactly the form this program writes.
 *
 * Nothing that a list names is opened because it is named: only files found in the bag are read.
 *
 * Shape:   the bag's files; how a path in it is shown → what is wrong, with the file each trouble is in
 * Checked: tests/bag/verify-archive.test.ts
 */
function checkBag(
  files: BagFiles,
  shown: (path: string) => string,
): Pick<ArchiveVerified, 'problems' | 'sound'> {
  if (!files.sizes.has('bagit.txt') && !files.sizes.has(tagManifest))
    return {
      problems: [archiveProblem('archive/no-archive', shown('bagit.txt'), 'no-bag')],
      sound: new Set(),
    };
  const unsafe = unsafePaths(files, shown);
  if (unsafe.length > 0) return { problems: unsafe, sound: new Set() };

  const texts = new Map(
    [...files.sizes.keys()]
      .filter((path) => !path.startsWith(payload))
      .map((path) => [path, smallFile(files, path)?.toString('utf8') ?? ''] as const),
  );
  const tags = checkTags(files, texts, shown);
  const manifest = readManifest(texts.get('manifest-sha512.txt') ?? '');
  const checked = checkPayload(files, manifest, tags.changed.has('manifest-sha512.txt'), shown);
  const problems = [...tags.problems, ...checked.problems];
  const told = new Set(problems.map(({ file }) => file));
  const form = formTroubles(texts, shown).filter(({ file }) => !told.has(file));
  // Counts follow from the files: they are news only where nothing else is wrong.
  const counts = problems.length === 0 ? countTrouble(files, texts, shown) : [];
  return { problems: [...problems, ...form, ...counts], sound: checked.sound };
}

function unsafePaths(files: BagFiles, shown: (path: string) => string): Problem[] {
  const meeting = meetingPaths(files.sizes.keys());
  return [...files.sizes.keys()].flatMap((path) => {
    const trouble = pathTrouble(path);
    if (trouble) return [archiveProblem('archive/unsafe-path', shown(path), trouble.way, trouble.values)];
    const other = meeting.get(path);
    return other ? [archiveProblem('archive/unsafe-path', shown(path), 'meets', { other })] : [];
  });
}

function formTroubles(texts: ReadonlyMap<string, string>, shown: (path: string) => string): Problem[] {
  const problems: Problem[] = [];
  const bagit = texts.get('bagit.txt');
  if (bagit !== undefined && bagit !== bagitText)
    problems.push(archiveProblem('archive/not-our-form', shown('bagit.txt'), 'two-lines'));
  const info = texts.get('bag-info.txt');
  if (info !== undefined && readBagInfo(info) === undefined)
    problems.push(archiveProblem('archive/not-our-form', shown('bag-info.txt'), 'labels'));
  return problems;
}

function countTrouble(
  files: BagFiles,
  texts: ReadonlyMap<string, string>,
  shown: (path: string) => string,
): Problem[] {
  const said = readBagInfo(texts.get('bag-info.txt') ?? '');
  if (!said) return [];
  const sizes = [...files.sizes].filter(([path]) => path.startsWith(payload)).map(([, bytes]) => bytes);
  const bytes = sizes.reduce((sum, one) => sum + one, 0);
  if (said.bytes === bytes && said.files === sizes.length) return [];
  const found = { bytes, files: sizes.length, saidBytes: said.bytes, saidFiles: said.files };
  return [archiveProblem('archive/wrong-count', shown('bag-info.txt'), undefined, found)];
}
