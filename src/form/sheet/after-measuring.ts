import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { feet, type Sign } from '../../record/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { openDue } from '../../schedule/next-lift.js';
import { dueInWords, whenDue } from '../../words/compose-due.js';
import { dayInWords } from '../../words/day-and-place.js';
import { noItem, type SheetForm, sheetRows } from './sheet-items.js';
import type { AfterMeasuring, SheetItem } from './sheet-page.js';
import { followedNames, readBefore } from '../known-of-animal.js';

/** What was last found of each lesion and mark still followed, what its top should read on the day, and what is due. */
export function afterMeasuring(
  sheet: SheetForm,
  work: CaseWork,
  day: CalendarDay,
  today: CalendarDay,
): AfterMeasuring {
  const { words, animal } = sheet;
  const names = followedNames(animal);
  const gone = [...names.map((name) => [name, lastSigns(animal, name)] as const), ...feet.map((foot) => [words.say(`sheet.word.foot.${foot}`), footSigns(animal, foot)] as const)]; // prettier-ignore
  const due = openDue(work.due).map((item) =>
    words.say('sheet.due-line', {
      what: dueInWords(words, animal, item).what,
      when: whenDue(words, item, today, dayInWords(words, item.by)),
      who: words.say(`sheet.who.${item.who}`),
    }),
  );
  return {
    heading: words.say('sheet.after.heading'),
    heads: ['lesion', 'last', 'expected'].map((key) => words.say(`sheet.after.${key}`)),
    rows: readBefore(words, work, day),
    items: [
      ...sheetRows(sheet, 'after').flat(),
      ...gone
        .filter(([, signs]) => signs.length > 0)
        .map(([name, signs]): SheetItem => ({
          ...noItem,
          label: words.say('sheet.after.gone', { name }),
          ring: signs.map((sign) => words.say(`vocabulary.sign.${sign}`)),
        })),
    ],
    dueHeading: words.say('sheet.due'),
    due: due.length === 0 ? [words.say('sheet.due-none')] : due,
  };
}

function lastSigns({ visits }: Animal, name: string): readonly Sign[] {
  return visits.findLast(({ found }) => found?.[name])?.found?.[name]?.signs ?? [];
}

/** Signs seen on a foot and not written gone since. */
function footSigns({ visits }: Animal, foot: (typeof feet)[number]): Sign[] {
  const seen = new Set<Sign>();
  for (const { feet: looked } of visits) {
    for (const sign of looked?.[foot]?.signs ?? []) seen.add(sign);
    for (const sign of looked?.[foot]?.gone ?? []) seen.delete(sign);
  }
  return [...seen];
}
