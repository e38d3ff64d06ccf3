import { findingsInWords } from '../../book/finding-in-words.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { nextReadingSentence } from '../../words/compose-regrowth.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';
import { rowsOf, type SheetForm } from './sheet-items.js';
import { sheetLayout } from './sheet-layout.js';
import type { AfterMeasuring } from './sheet-page.js';

/** What was last found of each lesion and mark still followed, and what its top should read on the day of the visit. */
export function afterMeasuring(
  sheet: SheetForm,
  work: CaseWork,
  names: readonly string[],
  day: CalendarDay,
): AfterMeasuring {
  const { words, animal } = sheet;
  const [[tick] = []] = rowsOf([sheetLayout.afterMeasuring], sheet);
  const lesions = names.map((name) => {
    const at = animal.visits.findLastIndex(({ found }) => found?.[name] !== undefined);
    const visit = animal.visits[at];
    const index = Object.keys(visit?.found ?? {}).indexOf(name);
    const fact = visit && findingsInWords(words, animal, at)[index];
    const line = work.growth.lesions.find(({ lesion }) => lesion === name);
    return {
      name,
      last:
        visit && fact
          ? words.say('sheet.after.on', { day: dayInWords(words, visit.date), value: fact.value })
          : words.say('sheet.after.no-last'),
      expected: (line && nextReadingSentence(words, line, day)) || words.say('sheet.after.none'),
    };
  });
  return {
    heading: words.say('sheet.after.heading'),
    says: words.say('sheet.after.says'),
    heads: ['lesion', 'last', 'expected'].map((key) => words.say(`sheet.after.${key}`)),
    rows: [...lesions, ...walk(words, work)],
    ...(tick ? { tick } : {}),
  };
}

function walk(words: Words, { record: { animal } }: CaseWork): AfterMeasuring['rows'] {
  const last = animal.visits.findLast(({ gait }) => gait !== undefined);
  if (last?.gait === undefined) return [];
  const key = last['on-block'] === undefined ? 'gait' : last['on-block'] ? 'gait-on' : 'gait-off';
  const value = words.say(`sheet.after.${key}`, { gait: last.gait });
  return [
    {
      name: words.say('sheet.after.walk'),
      last: words.say('sheet.after.on', { day: dayInWords(words, last.date), value }),
      expected: '',
    },
  ];
}
