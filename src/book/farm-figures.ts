import type { Archive } from '../herd/archive-on.js';
import { type CaseFigures, farmFigures } from '../herd/farm-figures.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { earlyLiftingSentences, recurrenceSentences } from '../words/compose-herd.js';
import { dayInWords } from '../words/day-in-words.js';
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
  business: Business,
  farm: FarmRecord,
  today: CalendarDay,
  archive: Pick<Archive, 'figures' | 'upTo'>,
): FarmSection[] {
  const figures = farmFigures(farm, today);
  return [
    caseTimes(words, figures.farm, {
      here: words.say('herd.times.here'),
      lead: words.say('herd.times.lead'),
      archive,
    }),
    recurrenceSection(words, figures.farm, archive),
    ...(figures.rates ? [lesionRatesSection(words, figures.rates)] : []),
    lameDaysSection(words, figures),
    { id: 'early-lifting', heading: words.say('herd.early.heading'), lead: earlyLiftingSentences(words) },
    ...composeMoneyYears(words, business, farm, today),
  ];
}

function recurrenceSection(
  words: Words,
  farm: CaseFigures,
  { figures, upTo }: Pick<Archive, 'figures' | 'upTo'>,
): TableSection {
  return {
    id: 'came-back',
    heading: words.say('herd.recurrence.heading'),
    lead: [
      ...recurrenceSentences(words, farm),
      ...(figures
        ? recurrenceSentences(words, figures).map((sentence) =>
            words.say('herd.business', { sentence, day: dayInWords(words, upTo) }),
          )
        : []),
    ],
  };
}
