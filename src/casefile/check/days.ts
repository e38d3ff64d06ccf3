import type { Animal } from '../../record/animal.js';
import type { Amendment } from '../../record/measures.js';
import type { Farm } from '../../record/farm.js';
import type { RecordPath } from '../../problem/problem.js';
import { type FarmCheckContext, refuse, type AnimalCheckContext } from './check-context.js';
import type { Finding } from '../finding.js';
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
      : [
          refuse(
            'amended-after-today',
            [...path, 'amended', at, 'date'],
            `amended is ${date}, expected no day after today, ${today}`,
            'correct the day of the amendment',
          ),
        ],
  );
}

interface LifeDay {
  readonly id: string;
  /** How a message names it. */
  readonly called: string;
  readonly day: CalendarDay | undefined;
  readonly path: RecordPath;
}

/** Her own days: none after today but those that look ahead, none before her birth. */
export function checkDaysOfLife(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  const days = lifeDays(animal);
  return [
    ...days.flatMap(({ id, called, day, path }) =>
      day && day > today
        ? [
            refuse(
              `${id}-after-today`,
              path,
              `${called} is ${day}, expected no day after today, ${today}`,
              'correct the year or the day',
            ),
          ]
        : [],
    ),
    ...(animal.born && animal.born <= today ? days.flatMap((life) => beforeBirth(life, animal.born)) : []),
  ];
}

function lifeDays(animal: Animal): LifeDay[] {
  return [
    { id: 'birth', called: 'born', day: animal.born, path: ['born'] },
    ...listed('calving', 'a calving', 'calvings', animal.calvings),
    ...listed('dried-off', 'a drying-off', 'dried-off', animal['dried-off']),
    ...(animal.earlier ?? []).map(({ until }, i) => ({
      id: 'earlier',
      called: 'until',
      day: until,
      path: ['earlier', i, 'until'],
    })),
    ...(animal.episodes ?? []).flatMap((episode, i) => [
      {
        id: 'lame-since',
        called: 'lame-since',
        day: episode['lame-since'],
        path: ['episodes', i, 'lame-since'],
      },
      { id: 'ended', called: 'ended', day: episode.ended, path: ['episodes', i, 'ended'] },
      {
        id: 'told-in-writing',
        called: 'told-in-writing',
        day: episode['told-in-writing'],
        path: ['episodes', i, 'told-in-writing'],
      },
    ]),
    ...Object.entries(animal.marks ?? {}).map(([name, mark]) => ({
      id: 'groove',
      called: 'groove-from',
      day: mark['groove-from'],
      path: ['marks', name, 'groove-from'],
    })),
    ...animal.visits.map(({ date }, i) => ({
      id: 'visit',
      called: 'the date of a visit',
      day: date,
      path: ['visits', i, 'date'],
    })),
  ];
}

function listed(id: string, called: string, key: string, days: readonly CalendarDay[] = []): LifeDay[] {
  return days.map((day, i) => ({ id, called, day, path: [key, i] }));
}

function beforeBirth({ id, called, day, path }: LifeDay, born: CalendarDay | undefined): Finding[] {
  if (!born || !day || id === 'birth' || id === 'earlier') return [];
  if (id === 'calving')
    return day <= born
      ? [
          refuse(
            'birth-after-calving',
            path,
            `a calving is ${day}, expected a day after her own birth, ${born}`,
            'correct the calving or `born`',
          ),
        ]
      : [];
  if (day >= born) return [];
  return [
    refuse(
      id === 'visit' ? 'visit-before-birth' : 'event-before-birth',
      path,
      `${called} is ${day}, expected no day before her birth, ${born}`,
      'correct this day or `born`',
    ),
  ];
}
