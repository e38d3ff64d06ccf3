import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { episodesOf } from './episode.js';
import { gaitStanding } from './gait-standing.js';
import { standingOfLesion } from './standing-of-lesion.js';
import { standingOrder, type CaseStanding, type LesionStanding } from './standing.js';

/**
 * How an animal stands on a day: every lesion by the order of precedence, how she walks, and whether the case
 * is closed.
 *
 * Shape:   case file, its farm, its growth solved for the same day → standing
 * Valid:   visits after the day are not looked at
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function standingOfCase(
  caseRecord: CaseRecord,
  farmRecord: FarmRecord,
  growth: AnimalGrowth,
  today: CalendarDay,
): CaseStanding {
  const { animal } = caseRecord;
  const lesions = Object.entries(animal.lesions).map(([name, lesion]) =>
    standingOfLesion(animal, name, lesion, growth, today),
  );
  const leading = leadingOf(lesions);
  const episodes = episodesOf(animal, today);
  const episode = episodes.find(({ ended }) => ended === undefined) ?? episodes.at(-1) ?? { visits: [] };
  const { ended, result } = episode;
  return {
    lesions,
    ...(leading ? { leading } : {}),
    gait: gaitStanding(animal, farmRecord.farm, episode, today),
    episode,
    ...(ended ? { closed: { on: ended, result: result ?? 'not said' } } : {}),
  };
}

/** The first in the order of precedence; ended ones only where there is no other. */
function leadingOf(lesions: readonly LesionStanding[]): LesionStanding | undefined {
  return (
    worst(lesions.filter(({ standing }) => standing !== 'healed' && standing !== 'joined')) ?? worst(lesions)
  );
}

function worst(lesions: readonly LesionStanding[]): LesionStanding | undefined {
  return lesions.toSorted((a, b) => standingRank(a) - standingRank(b))[0];
}

/** Position in the order of precedence: smaller is worse. */
export function standingRank({ standing }: LesionStanding): number {
  return standingOrder.indexOf(standing);
}
