import type { FolderItem, CaseFiles, EntryKind } from '../../src/casefile/source-text.js';

/** What is under a path: text, bytes, a link to another path, a file that says its size and must not be read, one that cannot be. */
export type InMemory =
  | string
  | Uint8Array
  | { readonly linkTo: string }
  | { readonly sizeOnly: number }
  | { readonly refuses: string };

/** Case files without a disk, by path. Folders are whatever is before a `/`; a path ending in `/` is an empty one. */
export function caseFilesInMemory(contents: Readonly<Record<string, InMemory>>): CaseFiles {
  const real = (path: string): string => {
    for (const [from, what] of Object.entries(contents)) {
      const linked = typeof what === 'object' && 'linkTo' in what;
      if (linked && (path === from || path.startsWith(`${from}/`)))
        return what.linkTo + path.slice(from.length);
    }
    return path.replace(/\/$/, '');
  };
  const isFolder = (path: string): boolean => Object.keys(contents).some((key) => key.startsWith(`${path}/`));
  const kindOf = (path: string): EntryKind | undefined => {
    const what = contents[path];
    if (what === undefined) return isFolder(path) ? 'folder' : undefined;
    return typeof what === 'object' && 'linkTo' in what ? 'link' : 'file';
  };
  const bytesAt = (path: string): Uint8Array => {
    const what = contents[real(path)];
    if (typeof what === 'string') return new TextEncoder().encode(what);
    if (what instanceof Uint8Array) return what;
    throw refusal(what && 'refuses' in what ? what.refuses : 'ENOENT');
  };
  return {
    look: (path) => {
      const at = real(path);
      const kind = kindOf(at);
      const what = contents[at];
      if (!kind) return undefined;
      if (what && typeof what === 'object' && 'sizeOnly' in what) return { kind, bytes: what.sizeOnly };
      return {
        kind,
        bytes: typeof what === 'string' ? what.length : what instanceof Uint8Array ? what.length : 0,
      };
    },
    list: (folder) => {
      const at = real(folder);
      const own = contents[`${at}/`];
      if (own && typeof own === 'object' && 'refuses' in own) throw refusal(own.refuses);
      const names = Object.keys(contents).flatMap((key) =>
        key.startsWith(`${at}/`) && key.length > at.length + 1
          ? [key.slice(at.length + 1).split('/')[0] ?? '']
          : [],
      );
      return [...new Set(names)]
        .sort()
        .map((name): FolderItem => ({ name, kind: kindOf(`${at}/${name}`) ?? 'other' }));
    },
    read: bytesAt,
    readStart: (path, bytes) => bytesAt(path).subarray(0, bytes),
    realPath: (path) => {
      const at = real(path);
      return kindOf(at) ? at : undefined;
    },
  };
}

function refusal(code: string): Error {
  return Object.assign(new Error(code), { code });
}
