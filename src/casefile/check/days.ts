import type { Animal } from '../../record/animal.js';
import type { Amendment } from '../../record/measures.js';
import type { Farm } from '../../record/farm.js';
import type { Finding, RecordPath } from '../../problem/problem.js';
import { type FarmCheckContext, refuse, type AnimalCheckContext } from './check-context.js';
import type { CalendarDay } from '../../record/calendar-day.js';

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
export function afterToday({ amended = [] }: Amendable, path: RecordPath, today: string): Finding[] {
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
