import type { FarmSection } from '../book/book-page.js';
import { learnedSentence, trackRecordSentence } from '../words/compose-archive.js';
import { nameOf } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import { mm } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { OfBusiness } from './of-business.js';

/** What all cows on file have taught of how fast horn grows. */
export function learnedSection(words: Words, { archive }: OfBusiness): FarmSection {
  return {
    id: 'learned',
    heading: words.say('overview.learned.heading'),
    lead: [learnedSentence(words, archive.priors.learned), words.say('overview.learned.quarter')],
  };
}

/** How good the dates have been: the scores, and each gap they rest on. */
export function trackRecordSection(words: Words, business: OfBusiness): FarmSection {
  const { record } = business.archive;
  const scored = record.gaps.filter(({ scores }) => scores.length > 0);
  const sum = (values: readonly number[]) => values.reduce((before, value) => before + value, 0);
  return {
    id: 'track-record',
    heading: words.say('overview.track.heading'),
    lead: [
      trackRecordSentence(words, business.archive),
      ...(record.all.forecasts + record.withoutForecast + record.leftOut === 0
        ? []
        : [
            words.say('overview.track.counts', {
              forecasts: record.all.forecasts,
              gaps: record.all.lesions,
              without: record.withoutForecast,
              left: record.leftOut,
            }),
          ]),
    ],
    ...(scored.length > 0
      ? {
          table: {
            id: 'track-table',
            caption: words.say('overview.track.caption'),
            columns: [
              { head: words.say('overview.track.gap') },
              { head: words.say('overview.track.healed') },
              ...['dates', 'in-range', 'off'].map((key) => ({
                head: words.say(`overview.track.${key}`),
                number: true,
              })),
            ],
            rows: scored.map(({ farm, slug, lesion, after, by, scores, restarted }) => ({
              cells: [
                {
                  text: gapName(words, business, farm, slug, lesion),
                  ...(restarted ? { note: words.say('overview.track.restarted') } : {}),
                },
                {
                  text: words.say('overview.track.between', {
                    after: dayInWords(words, after),
                    by: dayInWords(words, by),
                  }),
                },
                { text: String(scores.length) },
                { text: String(mm(sum(scores.map((s) => s.inRange)))) },
                { text: String(Math.round(sum(scores.map((s) => s.errorDays)) / scores.length)) },
              ],
            })),
          },
        }
      : {}),
  };
}

/** Of a farm that is not asked for, or was refused meanwhile, the file's name. */
function gapName(words: Words, { practice }: OfBusiness, farm: string, slug: string, lesion: string): string {
  const record = practice.farms.find((one) => one.slug === farm);
  const animal = record?.cases.find((one) => one.slug === slug)?.animal;
  if (!record || !animal) return `${farm}/${slug}`;
  return words.say('overview.track.gap-of', {
    animal: animal.animal,
    farm: record.farm.farm,
    gap: nameOf(words, animal, lesion),
  });
}
