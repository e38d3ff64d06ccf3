import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { normalBelow } from '../../statistics/normal.js';
import { type AnimalFollowed, followAnimal } from '../follow-animal.js';
import { gapOnItsWay } from '../gap-growth.js';
import type { GrowingConditions } from '../growing-conditions.js';
import { isMeasured } from '../growth-line.js';
import { publishedPrior } from '../growth-of-animal.js';
import { likelyOutAfter } from '../when-out.js';
import { type HealedGap, healedGaps, truthOf } from './healed-gaps.js';
import { type ForecastScore, scoreForecast } from './score-forecast.js';

/** One healed gap with the scores of the forecasts made of it. */
export interface ScoredGap extends HealedGap {
  readonly scores: readonly ForecastScore[];
  /** Readings after which no date was given, with the reason said; they are not scored. */
  readonly withoutForecast: number;
  /** The clock was started anew at least once: it ran up, was held, opened further, or was not reached. */
  readonly restarted: boolean;
}

/**
 * Scores every forecast that was made of an animal's healed gaps, each with what was known on its day.
 *
 * Valid:   under the published prior, whatever the archive has taught since
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 */
export function scoredGaps(animal: Animal, conditions: GrowingConditions, today: CalendarDay): ScoredGap[] {
  const knownOn = new Map<CalendarDay, AnimalFollowed>();
  const followedOn = (day: CalendarDay): AnimalFollowed => {
    const known = knownOn.get(day) ?? followAnimal(animal, conditions, { today: day, prior: publishedPrior });
    knownOn.set(day, known);
    return known;
  };
  return healedGaps(animal, today).map((gap) => {
    const scores = gap.forecastOn.flatMap((day) => forecastScore(gap, followedOn(day), day) ?? []);
    return {
      ...gap,
      scores,
      withoutForecast: gap.forecastOn.length - scores.length,
      restarted: hasRestarted(gap.lesion, followedOn(gap.after)),
    };
  });

  function forecastScore(gap: HealedGap, known: AnimalFollowed, day: CalendarDay): ForecastScore | undefined {
    const index = indexOf(gap.lesion, known);
    const place = known.gaps[index];
    if (place === undefined) return undefined;
    const { why, way } = gapOnItsWay(animal, place, known.followed.lines[index]!, conditions, { today: day });
    if (why !== undefined || way === undefined) return undefined;
    const best = likelyOutAfter(way);
    const chanceOutBy = (on: number) => normalBelow(way.pastGround(on - way.from));
    return scoreForecast({ chanceOutBy, best: best === null ? null : way.from + best }, truthOf(gap));
  }
}

function indexOf(lesion: string, { gaps }: AnimalFollowed): number {
  return gaps.findIndex((gap) => gap.lesion === lesion);
}

function hasRestarted(lesion: string, known: AnimalFollowed): boolean {
  const own = known.followed.lines[indexOf(lesion, known)];
  return own?.start !== undefined && own.start !== own.line.readings.find(isMeasured);
}
