import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';
import { type AnimalCheckContext, refuse } from './check-context.js';
import type { Finding } from '../finding.js';
import { afterToday } from './days.js';

/**
 * What a visit tells of has happened by its day; what it plans lies ahead of it.
 *
 * A course of a product goes on after the visit, so `until` may lie ahead.
 */
export function checkDaysOfVisit(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  return animal.visits.flatMap((visit, i) => {
    const found = daysOf(visit, i, today);
    // A visit dated after today is refused as such; what hangs on its day would only say it again.
    return visit.date > today ? found.filter(({ id }) => id === 'record/amended-after-today') : found;
  });
}

function daysOf(visit: Visit, i: number, today: CalendarDay): Finding[] {
  return [
    ...told(visit).flatMap(({ id, called, day, path }) =>
      day > visit.date
        ? [
            refuse(
              id,
              ['visits', i, ...path],
              `${called} is ${day}, expected no day after the visit that tells of it, ${visit.date}`,
              'correct the day, or write it in a later visit; `kind: report` does for word from farm or vet',
            ),
          ]
        : [],
    ),
    ...planned(visit).flatMap(({ id, called, day, path }) =>
      day < visit.date
        ? [
            refuse(
              id,
              ['visits', i, ...path],
              `${called} is ${day}, expected a day from the visit on, ${visit.date}`,
              'correct the year or the day',
            ),
          ]
        : [],
    ),
    ...(visit.products ?? []).flatMap(({ on = visit.date, until }, at) =>
      until !== undefined && until < on
        ? [
            refuse(
              'until-before-on',
              ['visits', i, 'products', at, 'until'],
              `the product's until is ${until}, expected no day before its first, ${on}`,
              'write the day of the last dose as `until`',
            ),
          ]
        : [],
    ),
    ...amended(visit, i, today),
  ];
}

interface VisitDay {
  readonly id: string;
  readonly called: string;
  readonly day: CalendarDay;
  readonly path: RecordPath;
}

function told(visit: Visit): VisitDay[] {
  return [
    ...(['blocks', 'wraps'] as const).flatMap((key) =>
      (visit[key] ?? []).flatMap(({ on, event }, at) =>
        on === undefined || on === 'unknown'
          ? []
          : [
              {
                id: `${key === 'blocks' ? 'block' : 'wrap'}-after-visit`,
                called: `the ${key === 'blocks' ? 'block' : 'wrap'}'s day (${event})`,
                day: on,
                path: [key, at, 'on'],
              },
            ],
      ),
    ),
    ...(visit.products ?? []).flatMap(({ on }, at) =>
      on === undefined
        ? []
        : [{ id: 'product-after-visit', called: "the product's on", day: on, path: ['products', at, 'on'] }],
    ),
    ...(visit.vet
      ? [{ id: 'asked-after-visit', called: 'vet.asked', day: visit.vet.asked, path: ['vet', 'asked'] }]
      : []),
    ...(visit['farm-did'] ?? []).map(({ on }, at) => ({
      id: 'farm-did-after-visit',
      called: "the farm's task",
      day: on,
      path: ['farm-did', at, 'on'],
    })),
  ];
}

function planned(visit: Visit): VisitDay[] {
  return [
    ...(visit.recheck
      ? [{ id: 'recheck-before-visit', called: 'recheck', day: visit.recheck, path: ['recheck'] }]
      : []),
    ...(visit['ask-farm'] ?? []).map(({ by }, at) => ({
      id: 'ask-farm-before-visit',
      called: "the farm's task",
      day: by,
      path: ['ask-farm', at, 'by'],
    })),
  ];
}

function amended(visit: Visit, i: number, today: CalendarDay): Finding[] {
  const early = (visit.amended ?? []).flatMap(({ date }, at) =>
    date > today || date >= visit.date
      ? []
      : [
          refuse(
            'amended-before-visit',
            ['visits', i, 'amended', at, 'date'],
            `amended is ${date}, expected no day before the visit, ${visit.date}`,
            'correct the day of the amendment',
          ),
        ],
  );
  return [...afterToday(visit, ['visits', i], today), ...early];
}
