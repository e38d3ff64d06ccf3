import { farmFigures, type FarmFigures } from '../herd/farm-figures.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { earlyLiftingSentences, recurrenceSentences } from '../words/compose-herd.js';
import type { Words } from '../words/words.js';
import type { FarmSection } from './book-page.js';
import type { TableSection } from './page-parts.js';
import { caseTimes } from './case-times.js';
import { lameDaysSection } from './lame-days.js';
import { lesionRatesSection } from './lesion-rates-section.js';
import { composeMoneyYears } from './money-years.js';

/**
 * The figures of a farm as sections of its page: how long cases took, what came back, rates, days lame, and what
 * trials say for lifting early. Every figure has its numbers beneath it; no other farm is named.
 *
 * Checked: tests/book/farm-figures.test.ts
 */
export function composeFarmFigures(
  words: Words,
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
): FarmSection[] {
  const figures = farmFigures(practice, farm, today);
  return [
    caseTimes(words, figures),
    recurrenceSection(words, figures),
    ...(figures.rates ? [lesionRatesSection(words, figures.rates)] : []),
    lameDaysSection(words, figures),
    { id: 'early-lifting', heading: words.say('herd.early.heading'), lead: earlyLiftingSentences(words) },
    ...composeMoneyYears(words, practice.business, farm, today),
  ];
}

function recurrenceSection(words: Words, { farm, business }: FarmFigures): TableSection {
  return {
    id: 'came-back',
    heading: words.say('herd.recurrence.heading'),
    lead: [
      ...recurrenceSentences(words, farm),
      ...(business
        ? recurrenceSentences(words, business).map((sentence) => words.say('herd.business', { sentence }))
        : []),
    ],
  };
}
