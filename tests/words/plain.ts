import { untold } from '../../src/reference/words.js';

/** Page data with no mark on what a record says, to be checked against plain sentences. */
export function plain<T>(page: T): T {
  if (typeof page === 'string') return untold(page) as T;
  if (Array.isArray(page)) return page.map((one: unknown) => plain(one)) as T;
  if (typeof page !== 'object' || page === null) return page;
  return Object.fromEntries(Object.entries(page).map(([key, one]) => [key, plain(one as unknown)])) as T;
}
