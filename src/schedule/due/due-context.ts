import type { AnimalGrowth } from '../../growth/animal-growth.js';
import type { CaseStanding } from '../../healing/standing.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import type { DueItem } from '../due-item.js';
import type { IntervalsInForce } from '../interval-in-force.js';
import type { Notice } from '../notice.js';

/** What due items are worked out from. */
export interface DueContext {
  readonly animal: Animal;
  readonly farm: Farm;
  readonly growth: AnimalGrowth;
  readonly standing: CaseStanding;
  readonly notices: readonly Notice[];
  readonly interval: IntervalsInForce;
  readonly today: CalendarDay;
}

/** An item before it is marked: whether it is overdue, before the next visit or near calving follows from its days. */
export type DueDraft = Omit<DueItem, 'beforeNextVisit' | 'nearCalving' | 'standing'>;

/** Visits of the episode asked about with their positions, oldest first. */
export function episodeVisits({
  animal,
  standing,
}: Pick<DueContext, 'animal' | 'standing'>): readonly (readonly [number, Visit])[] {
  return standing.episode.visits.flatMap((at): [number, Visit][] => {
    const visit = animal.visits[at];
    return visit ? [[at, visit]] : [];
  });
}

/** The last visit of the episode at which feet were lifted. */
export function lastLifted(context: DueContext): readonly [number, Visit] | undefined {
  return episodeVisits(context).findLast(([, visit]) => isLiftingVisit(visit));
}
