import type { Problem } from '../../problem/problem.js';
import { archiveProblem } from '../archive-problem.js';
import { bagitText, payload, readBagInfo, tagManifest } from '../bag/bag-form.js';
import { type BagFiles, smallFile } from '../bag/bag-files.js';
import { readManifest } from '../bag/manifest.js';
import { meetingPaths, pathTrouble } from '../path-trouble.js';
import { checkPayload } from './check-payload.js';
import { checkTags } from './check-tags.js';

export interface BagChecked {
  readonly problems: readonly Problem[];
  /** Payload paths (with `data/`) that are there, listed and as they were listed. */
  readonly sound: ReadonlySet<string>;
}

/**
 * Holds a bag against what it says of itself: every file there, none besides, each checksum, the counts, and the lists
 * and labels in exactly the form this program writes.
 *
 * Nothing that a list names is opened because it is named: only files found in the bag are read.
 *
 * Shape:   the bag's files; how a path in it is shown → what is wrong, with the file each trouble is in
 * Checked: tests/archive/check-bag.test.ts
 */
export function checkBag(files: BagFiles, shown: (path: string) => string): BagChecked {
  if (!files.sizes.has('bagit.txt') && !files.sizes.has(tagManifest))
    return {
      problems: [
        archiveProblem('archive/no-archive', shown('bagit.txt'), 'there is no such file, so this is no bag'),
      ],
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
  const more = [...formTroubles(texts, shown), ...countTrouble(files, texts, shown)].filter(
    ({ file }) => !problems.some((told) => told.file === file),
  );
  // Counts follow from the files: they are news only where nothing else is wrong.
  const news = more.filter(({ id }) => id !== 'archive/wrong-count' || problems.length === 0);
  return { problems: [...problems, ...news], sound: checked.sound };
}

function unsafePaths(files: BagFiles, shown: (path: string) => string): Problem[] {
  const meeting = meetingPaths(files.sizes.keys());
  return [...files.sizes.keys()].flatMap((path) => {
    const trouble = pathTrouble(path);
    if (trouble) return [archiveProblem('archive/unsafe-path', shown(path), `the path ${trouble}`)];
    const other = meeting.get(path);
    if (other === undefined) return [];
    const message = `on some disks this and \`${other}\` are one file or folder`;
    return [archiveProblem('archive/unsafe-path', shown(path), message)];
  });
}

function formTroubles(texts: ReadonlyMap<string, string>, shown: (path: string) => string): Problem[] {
  const problems: Problem[] = [];
  const bagit = texts.get('bagit.txt');
  if (bagit !== undefined && bagit !== bagitText)
    problems.push(notOurForm(shown('bagit.txt'), 'expected exactly the two lines of BagIt 1.0 in UTF-8'));
  const info = texts.get('bag-info.txt');
  if (info !== undefined && readBagInfo(info) === undefined)
    problems.push(notOurForm(shown('bag-info.txt'), 'expected the labels this program writes, in its order'));
  return problems;
}

function notOurForm(file: string, message: string): Problem {
  return archiveProblem(
    'archive/not-our-form',
    file,
    `the file is not in the form growdown archive writes: ${message}`,
  );
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
  const message = `Payload-Oxum says ${said.bytes} bytes in ${said.files} files, found ${bytes} bytes in ${sizes.length} files`;
  return [archiveProblem('archive/wrong-count', shown('bag-info.txt'), message)];
}
