import type { Problem } from '../../problem/problem.js';
import type { OpenFile } from '../archive-disk.js';
import { archiveProblem } from '../archive-problem.js';
import type { BagInZip } from './bag-in-zip.js';
import { directoryLineBytes, localHeaderBytes, zipOfBag } from './zip-of-bag.js';

/** A stretch of the zip and what stands there. */
interface Stretch {
  readonly to: number;
  /** Undefined for the end of the zip, which is about all of it. */
  readonly path?: string;
  readonly what: string;
}

/**
 * Writes the zip again from what is in it and holds the two against each other, byte for byte.
 *
 * A zip has room for much that no reader looks at; this way nothing can hide in it, and nothing in it can change.
 *
 * Shape:   an open zip, the bag in it, what is known to be wrong → each stretch that differs, named by the file it is about
 * Checked: tests/archive/changed-bytes.test.ts
 */
export async function compareZip(
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
    .map(([{ what }, byte]) => differs(zip, `byte ${byte}, in ${what}, is not as it would be written`));
  if (file.bytes > at) problems.push(differs(zip, `${file.bytes - at} bytes follow after its end`));
  return problems;
}

function stretchesOf({ files, folder }: BagInZip): Stretch[] {
  const paths = [...files.sizes.keys()].sort();
  const name = (path: string): number => folder.length + 1 + path.length;
  let at = 0;
  const stretches: Stretch[] = [];
  for (const path of paths) {
    at += localHeaderBytes + name(path) + files.sizes.get(path)!;
    stretches.push({ to: at, path, what: `what stands before \`${path}\`` });
  }
  for (const path of paths) {
    at += directoryLineBytes + name(path);
    stretches.push({ to: at, path, what: `the line of \`${path}\` in its directory` });
  }
  return [...stretches, { to: Infinity, what: 'the end of its directory' }];
}

function differs(zip: string, message: string): Problem {
  return archiveProblem(
    'archive/zip-form',
    zip,
    `the zip is not the one growdown archive writes of these files: ${message}`,
  );
}
