import type { z } from 'zod';
import { farmData } from './farm-data-here.js';

/** Stands in the place of `reference/read-shared` in the page: the files of `shared/` come with it. They were checked when it was made. */
export function readShared<S extends z.ZodType>(name: string, _shape: S): z.output<S> {
  const file = farmData.shared[name];
  if (file === undefined) throw new RangeError(`the page carries no ${name}`);
  return file as z.output<S>;
}
