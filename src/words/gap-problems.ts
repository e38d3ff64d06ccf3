import type { ArchivePriors } from '../growth/learning/priors-for.js';
import type { Problem, Severity } from '../problem/problem.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice, RecordSource } from '../record/practice.js';
import { type Gap, type GapGrade, gapsOfFarm } from '../schedule/gaps-of-farm.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { gapInWords } from './compose-withheld.js';
import { wordsOf } from '../reference/words.js';

/** A gap costs no error: the most serious are warnings, the others notes. */
const severityOf: Readonly<Record<GapGrade, Severity>> = {
  serious: 'warning',
  'worth closing': 'note',
  minor: 'note',
};

/** What a farm's records do not hold and could, each with its place in its file. */
export function gapProblems(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  priors: ArchivePriors,
  isPictureThere: (file: string) => boolean,
): Problem[] {
  return [
    ...gapsOfFarm(farm, today).map((gap) => problemOf(gap, undefined, farm.source)),
    ...workOutFarm(farm, { business: practice.business, today, priors, isPictureThere }).flatMap(
      ({ record, gaps }) => gaps.map((gap) => problemOf(gap, record.animal, record.source)),
    ),
  ];
}

function problemOf(gap: Gap, animal: Animal | undefined, source: RecordSource): Problem {
  const { message, close } = gapInWords(wordsOf('en-GB'), animal, gap);
  return {
    id: gap.id,
    severity: severityOf[gap.grade],
    file: source.file,
    place: source.placeOf(gap.path),
    message,
    mend: close,
  };
}
