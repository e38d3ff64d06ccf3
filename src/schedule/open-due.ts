import type { DueItem } from './due-item.js';

/** To be done: neither done nor suspended while work on the farm stands still. */
export function isOpen({ standing }: Pick<DueItem, 'standing'>): boolean {
  return standing === 'open' || standing === 'overdue';
}

/** What is to be done, as `dueItems` sorts it. */
export function openDue(due: readonly DueItem[]): DueItem[] {
  return due.filter(isOpen);
}
