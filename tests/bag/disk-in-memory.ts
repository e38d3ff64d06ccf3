import type { ArchiveDisk } from '../../src/bag/bag-form.js';

/** An archive's disk without one: files by path, links by where they lead. `opened` is what was read, `written` what was made. */
export function diskInMemory(files: Map<string, Uint8Array>, links: ReadonlyMap<string, string> = new Map()) {
  const opened: string[] = [];
  const written: string[] = [];
  const folderAt = (path: string) =>
    [...files.keys(), ...links.keys()].some((one) => one.startsWith(`${path}/`));
  const look = (path: string) =>
    links.has(path) ? 'link' : files.has(path) ? 'file' : folderAt(path) ? 'folder' : undefined;
  const disk: ArchiveDisk = {
    look,
    list: (folder) => {
      const names = [...files.keys(), ...links.keys()]
        .filter((path) => path.startsWith(`${folder}/`))
        .map((path) => path.slice(folder.length + 1).split('/')[0]!);
      return [...new Set(names)].sort().map((name) => ({ name, kind: look(`${folder}/${name}`)! }));
    },
    open: (path) => {
      opened.push(path);
      const bytes = files.get(path);
      if (!bytes) throw new Error(`no file ${path}`);
      return {
        bytes: bytes.length,
        readAt: (offset, length) => bytes.subarray(offset, offset + length),
        close: () => {},
      };
    },
    create: (path) => {
      if (files.has(path)) throw new Error(`${path} stands already`);
      written.push(path);
      files.set(path, new Uint8Array());
      return {
        write: (bytes) => void files.set(path, Buffer.concat([files.get(path)!, bytes])),
        close: () => {},
      };
    },
    rename: (from, to) => {
      for (const [path, bytes] of new Map(files))
        if (path === from || path.startsWith(`${from}/`)) {
          files.delete(path);
          files.set(to + path.slice(from.length), bytes);
        }
    },
    removeAll: (path) => {
      for (const one of files.keys()) if (one === path || one.startsWith(`${path}/`)) files.delete(one);
    },
    sweep: () => undefined,
    token: () => 'token',
  };
  return { disk, files, opened, written };
}
