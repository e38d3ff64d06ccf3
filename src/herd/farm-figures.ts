import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { footbathSums, type FootbathSums } from './footbath/bath-sums.js';
import { lameAtRounds, type RoundShare } from './lame-at-round.js';
import { lameDays, type LameDays } from './lame-days.js';
import { lesionRates, type LesionRates } from './lesion-rates.js';
import { recurrenceOfLesions, returnsOfDermatitis, type Recurrence } from './recurrence.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { timeToHealed, type HealingOfKind } from './time-to-healed.js';
import type { TimeToEvent } from './time-to-event.js';
import { timeToWalk } from './time-to-walk.js';
import { withoutCopies } from './without-copies.js';
import { workPerCase, type WorkPerCase } from './work-per-case.js';

/** Figures that can be pooled over farms. */
export interface CaseFigures {
  readonly healed: readonly HealingOfKind[];
  readonly notLame: TimeToEvent;
  readonly sound: TimeToEvent;
  readonly recurrence: Recurrence;
  readonly dermatitis: Recurrence;
  readonly work: { readonly ended?: WorkPerCase; readonly running?: WorkPerCase };
}

/** All figures of one farm's page. */
export interface FarmFigures {
  readonly farm: CaseFigures;
  /** The whole business, this farm included, with no case and no farm named: absent with so few farms that another could be told from it. */
  readonly business?: CaseFigures;
  readonly rates?: LesionRates;
  readonly lameDays: readonly LameDays[];
  readonly rounds: readonly RoundShare[];
  readonly footbath: FootbathSums;
}

/**
 * The figures of one farm, and of the whole business beside it.
 *
 * Why the business has no cases: a farm's book names no other farm and none of its animals.
 *
 * Shape:   practice, one of its farms, day → data; the order of the files does not matter
 * Checked: tests/herd/farm-figures.test.ts
 */
export function farmFigures(practice: Practice, farm: FarmRecord, today: CalendarDay): FarmFigures {
  const rates = lesionRates(farm, today);
  return {
    farm: caseFigures([farm], today),
    ...(practice.farms.length >= herdNumbers.figures.leastFarms.value
      ? { business: businessFigures(practice, today) }
      : {}),
    ...(rates ? { rates } : {}),
    lameDays: lameDays(farm, today),
    rounds: lameAtRounds(farm.farm, today),
    footbath: footbathSums(farm.farm, today),
  };
}

/** The same of several farms together. */
export function caseFigures(farms: readonly FarmRecord[], today: CalendarDay): CaseFigures {
  return {
    healed: timeToHealed(farms, today),
    notLame: timeToWalk(farms, today, 'not-lame'),
    sound: timeToWalk(farms, today, 'sound'),
    recurrence: recurrenceOfLesions(farms, today),
    dermatitis: returnsOfDermatitis(farms, today),
    work: workPerCase(farms, today),
  };
}

const ofBusiness = new WeakMap<Practice, Map<CalendarDay, CaseFigures>>();

/** All farms together with no case named, an animal that moved counted once; worked out once for a practice and a day, since every farm's book asks for it. */
function businessFigures(practice: Practice, today: CalendarDay): CaseFigures {
  const days = ofBusiness.get(practice) ?? new Map<CalendarDay, CaseFigures>();
  ofBusiness.set(practice, days);
  const known = days.get(today) ?? unnamed(caseFigures(withoutCopies(practice.farms), today));
  days.set(today, known);
  return known;
}

function unnamed(figures: CaseFigures): CaseFigures {
  return withTimes(figures, (times) => ({ ...times, cases: [] }));
}

/** The same figures with something done to each of their times. */
export function withTimes(
  { healed, notLame, sound, ...rest }: CaseFigures,
  change: <T extends TimeToEvent>(times: T) => T,
): CaseFigures {
  return { ...rest, healed: healed.map(change), notLame: change(notLame), sound: change(sound) };
}
