import type { FarmSection } from '../book/book-page.js';
import { caseTimes } from '../book/case-times.js';
import { type CaseFigures, caseFigures, withTimes } from '../herd/farm-figures.js';
import { withoutCopies } from '../herd/without-copies.js';
import type { FarmRecord } from '../record/practice.js';
import { recurrenceSentences } from '../words/compose-herd.js';
import type { Words } from '../words/words.js';
import type { OfBusiness } from './of-business.js';

/** How long cases took and what came back, all farms together; an animal that moved counts once. */
export function timesSections(words: Words, { farms, today }: OfBusiness): FarmSection[] {
  const records = farms.map(({ record }) => record);
  const figures = withFarms(caseFigures(withoutCopies(records), today), records);
  return [
    caseTimes(
      words,
      { farm: figures },
      { here: words.say('herd.times.everywhere'), lead: words.say('overview.times.lead') },
    ),
    {
      id: 'came-back',
      heading: words.say('herd.recurrence.heading'),
      lead: recurrenceSentences(words, figures),
    },
  ];
}

/** Where cases are told one by one, each with its farm: numbers are a farm's own. */
function withFarms(figures: CaseFigures, farms: readonly FarmRecord[]): CaseFigures {
  const names = new Map(farms.map(({ slug, farm }) => [slug, farm.farm]));
  return withTimes(figures, (times) => ({
    ...times,
    cases: times.cases.map((one) => ({
      ...one,
      animal: `${one.animal}, ${names.get(one.farm) ?? one.farm}`,
    })),
  }));
}
