import { type CostKind, type Costs } from '../money/costs.js';
import { sumAsText } from '../money/hundredths.js';
import { totalAsText } from '../money/total-as-text.js';
import { workKinds } from '../money/work-done.js';
import { yearCosts } from '../money/year-costs.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { notInSumItems } from '../words/compose-money.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { Cell, TableSection } from './page-parts.js';

/** What all cases of a farm cost, a row a year; nothing where the business gives no prices. */
export function composeMoneyYears(
  words: Words,
  business: Business,
  farm: FarmRecord,
  today: CalendarDay,
): TableSection[] {
  const years = yearCosts(business, farm, today);
  const { currency } = business.prices ?? {};
  if (years.length === 0 || currency === undefined) return [];
  const kinds = [...workKinds, 'milk' as const].filter((what) =>
    years.some(({ costs }) => costs.lines.some((line) => line.what === what)),
  );
  return [
    {
      id: 'money-years',
      heading: words.say('money.years.heading'),
      lead: [
        words.say('money.years.lead', { currency }),
        ...years.flatMap(({ year, costs }) => {
          const items = notInSumItems(words, costs);
          return items === undefined ? [] : [words.say('money.years.not-in-sum', { year, items })];
        }),
      ],
      table: {
        id: 'money-years-table',
        caption: words.say('money.years.caption'),
        columns: [
          { head: words.say('money.years.year') },
          ...kinds.map((what) => ({ head: words.say(`money.short.${what}`), number: true })),
          { head: words.say('money.table.sum'), number: true },
        ],
        rows: years.map(({ year, costs }) => ({
          cells: [
            { text: yearText(words, year, today) },
            ...kinds.map((what) => kindCell(words, costs, what)),
            { text: totalAsText(costs), strong: true },
          ],
        })),
      },
    },
  ];
}

function yearText(words: Words, year: string, today: CalendarDay): string {
  return year === today.slice(0, 4)
    ? words.say('money.years.so-far', { year, day: dayInWords(words, today) })
    : year;
}

function kindCell(words: Words, { lines }: Costs, what: CostKind): Cell {
  const line = lines.find((one) => one.what === what);
  return line
    ? { text: sumAsText(line.sum), note: words.say(`money.count.${what}`, { count: line.count }) }
    : { text: '–' };
}
