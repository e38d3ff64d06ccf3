import type { DueItem } from './due-item.js';

/** What is due and not done, soonest first, as `dueItems` sorts it. */
export function openDue(due: readonly DueItem[]): DueItem[] {
  return due.filter(({ standing }) => standing !== 'done');
}
