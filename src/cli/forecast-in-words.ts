import type { LesionGrowth } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { outSentence } from '../words/compose-regrowth.js';
import { caseChip, nameOf, standingChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';

/** The wall gaps of one animal that have a reading, two lines each: which and the latest reading, how it stands and its range. */
export function forecastInWords(
  words: Words,
  { slug }: FarmRecord,
  work: CaseWork,
  today: CalendarDay,
): string[] {
  const { animal } = work.record;
  return work.growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .toSorted((a, b) => (a.lesion < b.lesion ? -1 : 1))
    .map((line) => {
      const stands = work.standing.lesions.find(({ lesion }) => lesion === line.lesion);
      const chip = stands === undefined ? '' : `${standingChip(words, stands)}. `;
      const head = `${slug}/${work.record.slug} ${line.lesion}: ${nameOf(words, animal, line.lesion, line.code)}`;
      const outlook = work.standing.closed
        ? `${caseChip(words, work.standing)}.`
        : outSentence(words, line, today);
      return `${head}; ${latest(words, line)}\n  ${chip}${outlook}`.trimEnd() + '\n';
    });
}

function latest(words: Words, { readings }: LesionGrowth): string {
  const last = readings.at(-1)!;
  const read = last.topMm === undefined ? 'no length' : `top ${last.topMm} mm`;
  return `${read} on ${dayInWords(words, last.date)}`;
}
