import type { CaseStanding } from '../healing/standing.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { Gap, GapGrade } from './gap.js';
import type { GapContext } from './gaps/gap-context.js';
import { closingGaps } from './gaps/closing-gaps.js';
import { lengthGaps } from './gaps/length-gaps.js';
import { afterTrimGaps, missingPhotos } from './gaps/photo-gaps.js';
import { leftGaps, productGaps, treatedGaps } from './gaps/product-gaps.js';
import {
  blockGaps,
  gaitGaps,
  missedGaps,
  painReliefGaps,
  recheckGaps,
  taskGaps,
  vetGaps,
  wrapGaps,
} from './gaps/visit-gaps.js';
import { intervalsInForce } from './interval-in-force.js';
import { usesOf, withoutProduct } from './withheld.js';

/** What gaps are worked out from, beside the case file. */
export interface GapsKnown {
  readonly farmRecord: FarmRecord;
  readonly business: Business;
  /** Of the same day. */
  readonly standing: CaseStanding;
  readonly today: CalendarDay;
  /** Whether a picture named in the record is there; without it no picture is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
}

const order: readonly GapGrade[] = ['serious', 'worth closing', 'minor'];

/**
 * What one case file does not hold and could, most serious first; never fatal.
 *
 * Of a closed case only its end, how she left, products and pictures are looked at: the rest can no longer be closed.
 *
 * Shape:   case file and what is known for a day → gaps with their places in the file
 * Checked: tests/schedule/gaps-of-case.test.ts
 */
export function gapsOfCase(caseRecord: CaseRecord, known: GapsKnown): readonly Gap[] {
  const { animal } = caseRecord;
  const { farmRecord, business, standing, today, isPictureThere } = known;
  const { farm } = farmRecord;
  const open = standing.closed
    ? []
    : standing.episode.visits.flatMap((at) => (animal.visits[at] ? [[at, animal.visits[at]] as const] : []));
  const context: GapContext = {
    animal,
    farm,
    standing,
    interval: intervalsInForce(farm, business),
    open,
    today,
  };
  return [
    ...recheckGaps(context),
    ...lengthGaps(context),
    ...blockGaps(context),
    ...wrapGaps(context),
    ...closingGaps(animal, farm, today),
    ...productGaps(usesOf(animal, today), farm),
    ...treatedGaps(withoutProduct(animal, today)),
    ...leftGaps(animal, farm, today),
    ...painReliefGaps(context),
    ...gaitGaps(context),
    ...vetGaps(context),
    ...taskGaps(context),
    ...(isPictureThere ? missingPhotos(animal, today, isPictureThere) : []),
    ...afterTrimGaps(context),
    ...missedGaps(context),
  ].toSorted((a, b) => order.indexOf(a.grade) - order.indexOf(b.grade));
}
