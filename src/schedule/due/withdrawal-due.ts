import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';
import { fixedDays } from '../../reference/intervals.js';
import { isDry } from '../is-dry.js';
import { withdrawalOf, type Withheld } from '../withdrawal.js';
import type { DueContext, DueDraft } from './due-context.js';

/**
 * Milk and meat that are withheld on a day, and medicines without a word about it; of closed cases too.
 *
 * A clear day that has come is no item any more. A medicine without a recorded withdrawal is asked about for a
 * year. Of a dry cow the milk counts from calving too, and only the vet can say how.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function withdrawalDue({ animal, farm, today }: DueContext): DueDraft[] {
  return [...animal.visits.entries()].flatMap(([, visit]) =>
    visit.date > today
      ? []
      : (visit.products ?? []).flatMap((use): DueDraft[] => {
          const { lastDose, milk, meat } = withdrawalOf(use, visit.date, farm['milkings-a-day']);
          const named = { product: use.product, day: lastDose };
          const dry = isDry(animal, lastDose) ? '-dry' : '';
          const unknown = [milk, meat].some(isUnknown);
          const recent = daysBetween(lastDose, today) < fixedDays('withdrawal-unknown-shown');
          return [
            ...held('milk-clear', milk, `due.why.milk-clear${dry}`, named, today),
            ...held('meat-clear', meat, 'due.why.meat-clear', named, today),
            ...(unknown && recent ? [notRecorded(milk, meat, named, visit)] : []),
          ];
        }),
  );
}

function isUnknown(side: Withheld): boolean {
  return side.outcome === 'not-recorded' || side.outcome === 'milkings-a-day-not-known';
}

function held(
  what: 'milk-clear' | 'meat-clear',
  side: Withheld,
  key: string,
  named: Readonly<Record<string, string>>,
  today: CalendarDay,
): DueDraft[] {
  if (side.outcome !== 'withheld' || side.firstClear <= today) return [];
  const { firstClear: by, lastWithheld } = side;
  const why = { key, values: { ...named, last: lastWithheld, clear: by } };
  return [{ what, by, lastWithheld, who: 'farm', basis: 'record', why }];
}

function notRecorded(
  milk: Withheld,
  meat: Withheld,
  named: Readonly<Record<string, string>>,
  visit: Visit,
): DueDraft {
  const both = isUnknown(milk) && isUnknown(meat);
  const which = both ? 'both' : isUnknown(milk) ? 'milk' : 'meat';
  const milkings = milk.outcome === 'milkings-a-day-not-known' ? '-milkings' : '';
  return {
    what: 'withdrawal-not-recorded',
    notRecorded: which,
    by: named['day'] ?? visit.date,
    who: 'farm',
    basis: 'record',
    why: { key: `due.why.withdrawal-not-recorded-${which}${milkings}`, values: named },
  };
}
