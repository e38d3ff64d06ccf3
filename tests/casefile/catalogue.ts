import { z } from 'zod';
import { readShared } from '../../src/reference/read-shared.js';

const catalogueFile = z.record(z.string().regex(/^[a-z]+\/[a-z0-9-]+$/), z.string().min(1));

let read: ReadonlyMap<string, string> | undefined;

/** Every problem id with one plain sentence of what it means. Ids are permanent: one is never given another meaning. */
export function catalogue(): ReadonlyMap<string, string> {
  read ??= new Map(Object.entries(readShared('problems.json', catalogueFile)));
  return read;
}
