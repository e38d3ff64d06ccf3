import type { Animal } from '../../record/animal.js';
import type { Amendment } from '../../record/measures.js';
import type { Farm } from '../../record/farm.js';
import type { Finding, RecordPath } from '../../problem/problem.js';
import { type FarmCheckContext, refuse, type AnimalCheckContext } from './check-context.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';

interface Amendable {
  readonly amended?: readonly Amendment[] | undefined;
}

/** A correction of who she is, of a lesion, a mark or an episode is made by today; those of visits are looked at with them. */
export function checkCorrectionsOfAnimal(animal: Animal, { today }: FarmCheckContext): Finding[] {
  const { lesions, marks = {}, episodes = [] } = animal;
  return [
    ...afterToday(animal, [], today),
    ...Object.entries(lesions).flatMap(([name, one]) => afterToday(one, ['lesions', name], today)),
    ...Object.entries(marks).flatMap(([name, one]) => afterToday(one, ['marks', name], today)),
    ...episodes.flatMap((one, i) => afterToday(one, ['episodes', i], today)),
  ];
}

/** The same in `farm.md`. */
export function checkCorrectionsOfFarm(farm: Farm, { today }: FarmCheckContext): Finding[] {
  return [
    ...afterToday(farm, [], today),
    ...(farm['gait-rounds'] ?? []).flatMap((one, i) => afterToday(one, ['gait-rounds', i], today)),
    ...(farm.footbath ?? []).flatMap((one, i) => afterToday(one, ['footbath', i], today)),
    ...(farm.plan ? afterToday(farm.plan, ['plan'], today) : []),
  ];
}

/** Of a list of corrections, those dated after today. */
function afterToday({ amended = [] }: Amendable, path: RecordPath, today: string): Finding[] {
  return amended.flatMap(({ date }, at) =>
    date <= today
      ? []
      : [refuse('amended-after-today', [...path, 'amended', at, 'date'], { day: date, today })],
  );
}

interface LifeDay {
  readonly id: string;
  readonly day: CalendarDay | undefined;
  readonly path: RecordPath;
}

/** Her own days: none after today but those that look ahead, none before her birth. */
export function checkDaysOfLife(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  const days = lifeDays(animal);
  return [
    ...days.flatMap(({ id, day, path }) =>
      day && day > today ? [refuse(`${id}-after-today`, path, { day, today })] : [],
    ),
    ...(animal.born && animal.born <= today ? days.flatMap((life) => beforeBirth(life, animal.born)) : []),
  ];
}

function lifeDays(animal: Animal): LifeDay[] {
  return [
    { id: 'birth', day: animal.born, path: ['born'] },
    ...listed('calving', 'calvings', animal.calvings),
    ...listed('dried-off', 'dried-off', animal['dried-off']),
    ...(animal.earlier ?? []).map(({ until }, i) => ({
      id: 'earlier',
      day: until,
      path: ['earlier', i, 'until'],
    })),
    ...(animal.episodes ?? []).flatMap((episode, i) =>
      (['lame-since', 'ended', 'told-in-writing'] as const).map((key) => ({
        id: key,
        day: episode[key],
        path: ['episodes', i, key],
      })),
    ),
    ...Object.entries(animal.marks ?? {}).map(([name, mark]) => ({
      id: 'groove',
      day: mark['groove-from'],
      path: ['marks', name, 'groove-from'],
    })),
    ...animal.visits.map(({ date }, i) => ({ id: 'visit', day: date, path: ['visits', i, 'date'] })),
  ];
}

function listed(id: string, key: string, days: readonly CalendarDay[] = []): LifeDay[] {
  return days.map((day, i) => ({ id, day, path: [key, i] }));
}

function beforeBirth({ id, day, path }: LifeDay, born: CalendarDay | undefined): Finding[] {
  if (!born || !day || id === 'birth' || id === 'earlier') return [];
  if (id === 'calving') return day <= born ? [refuse('birth-after-calving', path, { day, born })] : [];
  if (day >= born) return [];
  if (id === 'visit') return [refuse('visit-before-birth', path, { day, born })];
  return [refuse('event-before-birth', path, { key: String(path.at(-1)), day, born }, { way: id })];
}

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
    ...corrections(visit, i, today),
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

function corrections(visit: Visit, i: number, today: CalendarDay): Finding[] {
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
