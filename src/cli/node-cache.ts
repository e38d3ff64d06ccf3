import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FarmMemory } from '../casefile/remembered-farm.js';

/** Where what was made of farms is kept, seen from the cases folder. It may be deleted at any time. */
export const cacheFolder = '.growdown/cache';

/**
 * What was made of the farms in a cases folder: an entry is a line with the hash of its JSON, a line with the
 * program's stamp and the entry's key, and the JSON. Anything else is not there, and what the disk refuses is not kept.
 *
 * Shape:   a name has one entry, the last kept: the folder does not grow with time
 * Checked: tests/run/remembered.test.ts
 */
export function cacheIn(cases: string): FarmMemory {
  const root = join(cases, ...cacheFolder.split('/'));
  const at = (name: string): string => join(root, `${name}.json`);
  const entry = (name: string, key: string): { hash: string; json: Buffer } | undefined => {
    const bytes = orNothing(() => readFileSync(at(name)));
    if (!bytes) return undefined;
    const [hash, head] = [bytes.toString('latin1', 0, hashLength), Buffer.from(headOf(key))];
    const json = hashLength + 1 + head.length;
    if (!bytes.subarray(hashLength + 1, json).equals(head)) return undefined;
    return hash === hashOf(bytes.subarray(json)) ? { hash, json: bytes.subarray(json) } : undefined;
  };
  return {
    recall: (name, key) => {
      const found = entry(name, key);
      return found && orNothing((): unknown => JSON.parse(found.json.toString('utf8')));
    },
    hashOf: (name, key) => entry(name, key)?.hash,
    keep: (name, key, value) => {
      // A folder that is read another way than it is typed: none of that name is made.
      if (!existsSync(cases)) return;
      const json = JSON.stringify(value);
      orNothing(() => {
        mkdirSync(dirname(at(name)), { recursive: true });
        if (!existsSync(join(root, '.gitignore'))) writeFileSync(join(root, '.gitignore'), '*\n');
        writeFileSync(at(name), `${hashOf(json)}\n${headOf(key)}${json}`);
      });
    },
    only: (farms) => {
      const kept = new Set(farms);
      const folders = orNothing(() => readdirSync(root, { withFileTypes: true })) ?? [];
      for (const folder of folders)
        if (folder.isDirectory() && !kept.has(folder.name))
          orNothing(() => rmSync(join(root, folder.name), { recursive: true, force: true }));
    },
  };
}

function orNothing<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

const hashLength = 44;

function hashOf(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('base64');
}

function headOf(key: string): string {
  return `${JSON.stringify([programStamp(), key])}\n`;
}

let stamped: string | undefined;

/** What this program is, down to each file of it as it lies on this disk: its code, layouts, words, numbers, and Node. */
function programStamp(): string {
  if (stamped !== undefined) return stamped;
  const home = fileURLToPath(new URL('../../', import.meta.url));
  const hash = createHash('sha256').update(process.version);
  const take = (path: string): void => {
    const { size, mtimeMs, ctimeMs } = statSync(path);
    hash.update(`${path} ${size} ${mtimeMs} ${ctimeMs}\n`);
  };
  for (const file of ['package.json', '.eleventy.js']) take(join(home, file));
  for (const folder of [
    fileURLToPath(new URL('..', import.meta.url)),
    join(home, 'layouts'),
    join(home, 'shared'),
  ])
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((one) => one.isFile() && !one.name.endsWith('.d.ts'))
      .map((one) => join(one.parentPath, one.name))
      .sort()
      .forEach(take);
  return (stamped = hash.digest('base64'));
}
