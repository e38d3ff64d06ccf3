import type { Animal } from '../../record/animal.js';
import type { Amendment } from '../../record/measures.js';
import type { Farm } from '../../record/farm.js';
import type { RecordPath } from '../../problem/problem.js';
import { type FarmCheckContext, type Findings, refuse, type AnimalCheckContext } from './check-context.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';

/** A correction of who she is, of a lesion, a mark or an episode is made by today; those of visits are looked at with them. */
export function* checkCorrectionsOfAnimal(animal: Animal, { today }: FarmCheckContext): Findings {
  yield* afterToday(animal, [], today);
  for (const group of ['lesions', 'marks', 'episodes'] as const)
    yield* eachAfterToday(animal[group], group, today);
}

/** The same in `farm.md`. */
export function* checkCorrectionsOfFarm(farm: Farm, { today }: FarmCheckContext): Findings {
  yield* afterToday(farm, [], today);
  for (const list of ['gait-rounds', 'footbath'] as const) yield* eachAfterToday(farm[list], list, today);
  yield* afterToday(farm.plan, ['plan'], today);
}

interface Amendable {
  readonly amended?: readonly Amendment[] | undefined;
}

type Amendables = Readonly<Record<string, Amendable>> | readonly Amendable[];

function* eachAfterToday(all: Amendables = [], under: string, today: string): Findings {
  for (const [name, one] of Object.entries(all))
    yield* afterToday(one, [under, Array.isArray(all) ? Number(name) : name], today);
}

/** Of a list of corrections, those dated after today. */
function* afterToday({ amended = [] }: Amendable = {}, path: RecordPath, today: string): Findings {
  for (const [at, { date: day }] of amended.entries())
    if (day > today) yield refuse('amended-after-today', [...path, 'amended', at, 'date'], { day, today });
}

/** Her own days: none after today but those that look ahead, none before her birth. */
export function* checkDaysOfLife(animal: Animal, { today }: AnimalCheckContext): Findings {
  const { born } = animal;
  for (const [id, path, day] of lifeDays(animal)) {
    if (day === undefined) continue;
    if (day > today) yield refuse(`${id}-after-today`, path, { day, today });
    if (born === undefined || born > today || day > born || id === 'birth' || id === 'earlier') continue;
    if (id === 'calving') yield refuse('birth-after-calving', path, { day, born });
    else if (day === born) continue;
    else if (id === 'visit') yield refuse('visit-before-birth', path, { day, born });
    else yield refuse('event-before-birth', path, { key: String(path.at(-1)), day, born }, { way: id });
  }
}

function* lifeDays(animal: Animal): Generator<[id: string, path: RecordPath, day: CalendarDay | undefined]> {
  yield ['birth', ['born'], animal.born];
  for (const [i, day] of (animal.calvings ?? []).entries()) yield ['calving', ['calvings', i], day];
  for (const [i, day] of (animal['dried-off'] ?? []).entries()) yield ['dried-off', ['dried-off', i], day];
  for (const [i, { until }] of (animal.earlier ?? []).entries())
    yield ['earlier', ['earlier', i, 'until'], until];
  for (const [i, episode] of (animal.episodes ?? []).entries())
    for (const key of ['lame-since', 'ended', 'told-in-writing'] as const)
      yield [key, ['episodes', i, key], episode[key]];
  for (const [name, mark] of Object.entries(animal.marks ?? {}))
    yield ['groove', ['marks', name, 'groove-from'], mark['groove-from']];
  for (const [i, { date }] of animal.visits.entries()) yield ['visit', ['visits', i, 'date'], date];
}

/**
 * What a visit describes has happened by its day; what it plans lies ahead of it. A course of a product goes on after the
 * visit, so `until` may lie ahead.
 *
 * A visit dated after today is refused as such; what hangs on its day would only say it again.
 */
export function* checkDaysOfVisit({ visits }: Animal, { today }: AnimalCheckContext): Findings {
  for (const [i, visit] of visits.entries()) {
    const path = ['visits', i];
    yield* afterToday(visit, path, today);
    if (visit.date > today) continue;
    for (const [id, inner, day, event = ''] of daysTold(visit))
      if (day !== undefined && day !== 'unknown' && day > visit.date)
        yield refuse(`${id}-after-visit`, [...path, ...inner], { day, event, visit: visit.date });
    for (const [id, inner, day] of daysPlanned(visit))
      if (day !== undefined && day < visit.date)
        yield refuse(`${id}-before-visit`, [...path, ...inner], { day, visit: visit.date });
    for (const [at, { on = visit.date, until }] of (visit.products ?? []).entries())
      if (until !== undefined && until < on)
        yield refuse('until-before-on', [...path, 'products', at, 'until'], { until, on });
  }
}

type DayOfVisit = [id: string, path: RecordPath, day: string | undefined, event?: string];

function* daysTold(visit: Visit): Generator<DayOfVisit> {
  for (const [key, id] of [
    ['blocks', 'block'],
    ['wraps', 'wrap'],
  ] as const)
    // prettier-ignore
    for (const [at, { on, event }] of (visit[key] ?? []).entries()) yield [id, [key, at, 'on'], on, event];
  for (const [at, { on }] of (visit.products ?? []).entries()) yield ['product', ['products', at, 'on'], on];
  yield ['asked', ['vet', 'asked'], visit.vet?.asked];
  for (const [at, { on }] of (visit['farm-did'] ?? []).entries())
    yield ['farm-did', ['farm-did', at, 'on'], on];
}

function* daysPlanned({ recheck, 'ask-farm': asked = [], amended = [] }: Visit): Generator<DayOfVisit> {
  yield ['recheck', ['recheck'], recheck];
  for (const [at, { by }] of asked.entries()) yield ['ask-farm', ['ask-farm', at, 'by'], by];
  for (const [at, { date }] of amended.entries()) yield ['amended', ['amended', at, 'date'], date];
}
