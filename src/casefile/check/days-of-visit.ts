import type { Finding, RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';
import { type AnimalCheckContext, refuse } from './check-context.js';
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
    ...told(visit).flatMap(({ id, day, path, event = '' }) =>
      day > visit.date ? [refuse(id, ['visits', i, ...path], { day, event, visit: visit.date })] : [],
    ),
    ...planned(visit).flatMap(({ id, day, path }) =>
      day < visit.date ? [refuse(id, ['visits', i, ...path], { day, visit: visit.date })] : [],
    ),
    ...(visit.products ?? []).flatMap(({ on = visit.date, until }, at) =>
      until !== undefined && until < on
        ? [refuse('until-before-on', ['visits', i, 'products', at, 'until'], { until, on })]
        : [],
    ),
    ...amended(visit, i, today),
  ];
}

interface VisitDay {
  readonly id: string;
  readonly day: CalendarDay;
  readonly path: RecordPath;
  /** What happened on the day, of a block or a wrap. */
  readonly event?: string;
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
                event,
                day: on,
                path: [key, at, 'on'],
              },
            ],
      ),
    ),
    ...(visit.products ?? []).flatMap(({ on }, at) =>
      on === undefined ? [] : [{ id: 'product-after-visit', day: on, path: ['products', at, 'on'] }],
    ),
    ...(visit.vet ? [{ id: 'asked-after-visit', day: visit.vet.asked, path: ['vet', 'asked'] }] : []),
    ...(visit['farm-did'] ?? []).map(({ on }, at) => ({
      id: 'farm-did-after-visit',
      day: on,
      path: ['farm-did', at, 'on'],
    })),
  ];
}

function planned(visit: Visit): VisitDay[] {
  return [
    ...(visit.recheck ? [{ id: 'recheck-before-visit', day: visit.recheck, path: ['recheck'] }] : []),
    ...(visit['ask-farm'] ?? []).map(({ by }, at) => ({
      id: 'ask-farm-before-visit',
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
          refuse('amended-before-visit', ['visits', i, 'amended', at, 'date'], {
            day: date,
            visit: visit.date,
          }),
        ],
  );
  return [...afterToday(visit, ['visits', i], today), ...early];
}
