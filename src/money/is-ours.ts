import type { Business } from '../record/business.js';

/**
 * Whether somebody is of the business: named as its trimmer or among its people. Where it names nobody, everybody is,
 * since nothing tells them apart.
 *
 * @example isOurs({ trimmer: 'Marra Quillfen' }, 'P. Wexmarrow') // → false
 */
export function isOurs({ trimmer, people = [] }: Business, name: string): boolean {
  const ours = [...(trimmer === undefined ? [] : [trimmer]), ...people.map((one) => one.name)];
  return ours.length === 0 || ours.some((one) => plain(one) === plain(name));
}

function plain(name: string): string {
  return name.trim().replaceAll(/\s+/g, ' ').toLowerCase();
}
