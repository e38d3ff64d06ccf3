import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

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
