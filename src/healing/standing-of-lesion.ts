import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { Lesion } from '../record/lesion.js';
import { familyOf } from '../reference/lesions.js';
import { closingsOf } from './closing/closing-of-ulcer.js';
import type { UlcerClosing } from './closing/ulcer-closing.js';
import { dermatitisStanding } from './dermatitis-standing.js';
import { looksAt, type Look } from './looks-at-lesion.js';
import type { LesionStanding } from './standing.js';
import { ulcerStanding } from './ulcer-standing.js';
import { wallStanding, type Told } from './wall-standing.js';

/**
 * How one lesion stands on a day: the first that holds in the order of precedence.
 *
 * What has ended is asked first, since a healed or joined lesion is nothing else any more. Then infection,
 * which stands from the visit that found it on. Then each family by its own evidence.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function standingOfLesion(
  animal: Animal,
  name: string,
  lesion: Lesion,
  growth: AnimalGrowth,
  today: CalendarDay,
): LesionStanding {
  const upTo = animal.visits.findLastIndex(({ date }) => date <= today);
  const code = codeOn(name, lesion, animal.visits, upTo);
  const looks = looksAt(animal, name, today);
  const again = lesion['again-of'] ? { againOf: lesion['again-of'] } : {};
  const told = tell(
    looks,
    code,
    lesion,
    growth.lesions.find((line) => line.lesion === name),
    closingsOf(animal, today).find((closing) => closing.lesion === name),
  );
  return { lesion: name, code, standing: told.standing, evidence: { ...told.evidence, ...again } };
}

function tell(
  looks: readonly Look[],
  code: LesionStanding['code'],
  lesion: Lesion,
  line: AnimalGrowth['lesions'][number] | undefined,
  closing: UlcerClosing | undefined,
): Told {
  const family = familyOf(code);
  const last = looks.findLast(({ found }) => found.state ?? found.stage ?? found.joined);
  const joined = looks.findLast(({ found }) => found.joined);
  const state = last?.found.state;
  const date = last ? { date: last.date } : {};
  const told = family === 'dermatitis' ? dermatitisStanding(looks) : undefined;
  if (!told && state === 'healed') return { standing: 'healed', evidence: date };
  if (told?.standing === 'healed') return told;
  if (joined?.found.joined)
    return { standing: 'joined', evidence: { date: joined.date, joinedTo: joined.found.joined } };
  if (looks.findLast(({ found }) => found.infected !== undefined)?.found.infected)
    return infected(looks, date);
  if (told) return told;
  if (!last) return { standing: 'not-measured', evidence: {} };
  if (state === 'lasting') return { standing: 'lasting', evidence: date };
  const measured =
    family === 'wall'
      ? wallStanding(looks, line)
      : family === 'ulcer' || family === 'double sole'
        ? ulcerStanding(looks, closing)
        : { standing: present(state), evidence: date };
  const nothingToCompare = measured.standing === 'open' || measured.standing === 'not-measured';
  return lesion['again-of'] && nothingToCompare ? { ...measured, standing: 'came-back' } : measured;
}

function present(state: Look['found']['state']): 'open' | 'covered' | 'present' {
  return state === 'open' || state === 'covered' ? state : 'present';
}

/** Infected from the visit that first said so; `infected: false` later takes it back. */
function infected(looks: readonly Look[], date: { date?: CalendarDay }): Told {
  const first = looks.find(({ found }) => found.infected);
  return {
    standing: 'infected',
    evidence: { ...date, infected: true, ...(first ? { since: first.date } : {}) },
  };
}
