import { addDays } from '../../record/calendar-day.js';
import { fixedDays } from '../../reference/intervals.js';
import { episodeVisits, type DueContext, type DueDraft } from './due-context.js';

/**
 * What the farm was asked to do, open and done. A task is done by the first word of it dated on or after the day
 * it was asked; asked twice, each word does one.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function farmTaskDue(context: Pick<DueContext, 'animal' | 'standing'>): DueDraft[] {
  const visits = episodeVisits(context);
  const done = visits.flatMap(([at, visit]) => (visit['farm-did'] ?? []).map((did) => ({ at, ...did })));
  return visits.flatMap(([at, visit]) =>
    (visit['ask-farm'] ?? []).map(({ what, by }): DueDraft => {
      const word = done.findIndex((did) => did.what === what && did.on >= visit.date && did.at >= at);
      const [did] = word < 0 ? [] : done.splice(word, 1);
      return {
        what: 'farm-task',
        by,
        overdueFrom: addDays(by, fixedDays('written-grace')),
        who: 'farm',
        basis: 'written',
        why: { key: 'due.why.farm-task', values: { day: visit.date } },
        task: what,
        ...(did ? { doneOn: did.on } : {}),
      };
    }),
  );
}
