import { type BagFiles, smallFile } from '../../archive/bag/bag-files.js';
import type { CaseEntry, CaseFiles } from '../../casefile/case-files.js';

/**
 * The case files in an archive as the reader of case files takes them, wherever the archive lies. Pictures stand under
 * their own names; `names` says where each lies in the archive.
 */
export function bagCaseFiles(
  files: BagFiles,
  root: string,
  { paths, names }: { readonly paths: Iterable<string>; readonly names: ReadonlyMap<string, string> },
): CaseFiles {
  const at = new Map<string, string>();
  for (const path of paths) if (path.startsWith('data/')) at.set(`${root}${path.slice('data'.length)}`, path);
  for (const [own, path] of names) at.set(`${root}/${own}`, path);
  const folders = new Set<string>([root]);
  for (const path of at.keys())
    for (let end = path.lastIndexOf('/'); end > root.length; end = path.lastIndexOf('/', end - 1))
      folders.add(path.slice(0, end));
  const look: CaseFiles['look'] = (path) => {
    const place = at.get(path);
    if (place !== undefined) return { kind: 'file', bytes: files.sizes.get(place) ?? 0 };
    return folders.has(path) ? { kind: 'folder', bytes: 0 } : undefined;
  };
  const placeOf = (path: string): string => {
    const place = at.get(path);
    if (place === undefined) throw Object.assign(new Error(`no file ${path}`), { code: 'ENOENT' });
    return place;
  };
  return {
    look,
    list: (folder) => {
      const entries = new Map<string, CaseEntry>();
      for (const path of [...folders, ...at.keys()])
        if (path.startsWith(`${folder}/`)) {
          const [name = '', ...more] = path.slice(folder.length + 1).split('/');
          const kind = more.length > 0 || folders.has(path) ? 'folder' : 'file';
          entries.set(name, { name, kind });
        }
      return [...entries.values()].toSorted((a, b) => (a.name < b.name ? -1 : 1));
    },
    read: (path) => {
      const bytes = smallFile(files, placeOf(path));
      if (!bytes) throw Object.assign(new Error(`${path} is too large`), { code: 'EFBIG' });
      return bytes;
    },
    readStart: (path, bytes) => {
      const [first = new Uint8Array()] = files.read(placeOf(path));
      return first.subarray(0, bytes);
    },
    realPath: (path) => (look(path) ? path : undefined),
  };
}
