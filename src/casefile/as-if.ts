import type { FolderItem, CaseFiles } from './source-text.js';

/** What a file would hold; undefined: it would not be there. */
export interface Laid {
  readonly path: string;
  readonly after: Uint8Array | undefined;
}

/** The case files as they would be with some files changed, new or taken away; nothing is written. */
export function asIf(files: CaseFiles, changes: readonly Laid[]): CaseFiles {
  const laid = new Map<string, Uint8Array | undefined>();
  const real = (path: string): string => {
    const found = files.realPath(path);
    if (found !== undefined) return found;
    const [folder, name] = split(path);
    return folder === '' ? path : `${real(folder)}/${name}`;
  };
  for (const { path, after } of changes) laid.set(path, after).set(real(path), after);
  const has = (path: string): boolean => laid.has(path) || laid.has(real(path));
  const at = (path: string): Uint8Array | undefined => laid.get(path) ?? laid.get(real(path));
  const children = childrenOf(laid);
  return {
    look: (path) => {
      const bytes = at(path);
      if (bytes) return { kind: 'file', bytes: bytes.length };
      if (has(path)) return undefined;
      return files.look(path) ?? (children.has(path) ? { kind: 'folder', bytes: 0 } : undefined);
    },
    list: (folder) => {
      const own = files.look(folder) ? files.list(folder) : [];
      const kept = own.filter(({ name, kind }) => kind !== 'file' || !has(`${folder}/${name}`));
      const added = [...(children.get(folder)?.values() ?? [])];
      const byName = new Map([...kept, ...added].map((entry) => [entry.name, entry]));
      return [...byName.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
    },
    read: (path) => at(path) ?? files.read(path),
    readStart: (path, bytes) => at(path)?.subarray(0, bytes) ?? files.readStart(path, bytes),
    realPath: (path) => {
      if (at(path) !== undefined || children.has(path)) return real(path);
      return has(path) ? undefined : files.realPath(path);
    },
  };
}

/** What is laid in each folder, by the folder's path: looked up once for every file of a large practice. */
function childrenOf(
  laid: ReadonlyMap<string, Uint8Array | undefined>,
): ReadonlyMap<string, ReadonlyMap<string, FolderItem>> {
  const children = new Map<string, Map<string, FolderItem>>();
  for (const [path, after] of laid) {
    if (after === undefined) continue;
    let kind: FolderItem['kind'] = 'file';
    for (let rest = path; rest.includes('/'); kind = 'folder') {
      const [folder, name] = split(rest);
      const held = children.get(folder) ?? new Map<string, FolderItem>();
      children.set(folder, held.set(name, { name, kind }));
      rest = folder;
    }
  }
  return children;
}

function split(path: string): [string, string] {
  const at = path.lastIndexOf('/');
  return at < 0 ? ['', path] : [path.slice(0, at), path.slice(at + 1)];
}
