import { readFileSync } from 'node:fs';
import type { z } from 'zod';

const folder = new URL('../../shared/', import.meta.url);

/**
 * Reads one data file of `shared/` and checks its shape.
 *
 * The files ship with the program, so a wrong one is our own slip and throws.
 */
export function readShared<S extends z.ZodType>(name: string, shape: S): z.output<S> {
  const parsed = shape.safeParse(JSON.parse(readFileSync(new URL(name, folder), 'utf8')));
  if (!parsed.success) throw new Error(`shared/${name}: ${parsed.error.message}`);
  return parsed.data;
}
