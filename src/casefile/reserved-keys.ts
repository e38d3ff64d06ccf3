import type { RecordPath } from '../problem/problem.js';
import type { Said } from './explain/said.js';

/**
 * Keys that mean something to the language this program is written in. The schema would pass over `__proto__` without
 * a word, and a lesion called `constructor` would seem to be declared everywhere.
 */
export const reservedNames = ['__proto__', 'constructor'];

export function isReserved(key: string): boolean {
  return reservedNames.includes(key);
}

/** Every use of a reserved key, with its path. */
export function reservedKeys(value: unknown, path: RecordPath = []): (Said & { path: RecordPath })[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.keys(value).flatMap((key) => {
    const here = [...path, key];
    const inner = reservedKeys((value as Record<string, unknown>)[key], here);
    if (!isReserved(key)) return inner;
    return [
      {
        id: 'key/reserved',
        message: `\`${key}\` cannot be used as a key or a name, expected another`,
        mend: 'choose another name',
        path: here,
      },
    ];
  });
}
