import { createHash } from 'node:crypto';
import { meetingPaths, pathTrouble } from './path-trouble.js';

/** Leaves room for the folders above: Windows takes paths of 260 characters. */
const longest = 100;

/** Where files lie that could not keep their name. */
const folder = 'renamed';

/**
 * The names files get in an archive: their own where every system takes them, else a plain one in a folder of its own.
 *
 * A plain one ends in twelve hexadecimal digits of the SHA-256 of the name it stands for, so that the same name always
 * becomes the same one, whatever else lies beside it. Of two that differ only in capitals, the first keeps its name.
 *
 * Shape:   paths as the trimmer has them, with `/` → path in the archive by path
 * Checked: tests/bag/plain-names.test.ts
 * @example plainNames(['photos/Böck.jpg']).get('photos/Böck.jpg') // → 'renamed/bock-93ba63251450.jpg'
 */
export function plainNames(paths: Iterable<string>): ReadonlyMap<string, string> {
  const sorted = [...paths].sort();
  const meeting = meetingPaths(sorted);
  const mayKeep = (path: string): boolean =>
    path.length <= longest &&
    pathTrouble(path) === undefined &&
    !meeting.has(path) &&
    path.split('/')[0]!.toLowerCase() !== folder;
  return new Map(sorted.map((path) => [path, mayKeep(path) ? path : plain(path)]));
}

function plain(path: string): string {
  const mark = createHash('sha256').update(path).digest('hex').slice(0, 12);
  const name = path.split('/').at(-1)!;
  const dot = name.lastIndexOf('.');
  const [stem, ending] = dot > 0 ? [name.slice(0, dot), name.slice(dot + 1)] : [name, ''];
  const file = `${ascii(stem).slice(0, 60) || 'file'}-${mark}`;
  return `${folder}/${ending === '' ? file : `${file}.${ascii(ending).slice(0, 10) || 'bin'}`}`;
}

function ascii(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9_-]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');
}
