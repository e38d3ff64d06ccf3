import type { FarmRecord } from '../record/practice.js';

/** A farm by its name, with how many animals and visits it has on file. */
export function farmCounted({ farm, cases }: FarmRecord): string {
  const visits = cases.reduce((sum, one) => sum + one.animal.visits.length, 0);
  return `${farm.farm}: ${counted(cases.length, 'animal')}, ${counted(visits, 'visit')}`;
}

/** A number with its noun. @example counted(1, 'visit') // → '1 visit' */
export function counted(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}
