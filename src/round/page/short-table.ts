import type { TableSection } from '../../book/page-parts.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { planDay } from '../../words/plan-day.js';
import type { Words } from '../../words/words.js';
import { openBesides } from '../open-besides.js';
import { overdueLifts, type Round, type RoundFarm } from '../round-of.js';

/** The farms of a round in the order of the page. */
export function farmsOf({ trips, unplanned, outside }: Round): RoundFarm[] {
  return [...trips.flatMap(({ farms }) => farms), ...unplanned, ...outside];
}

/** How many of the numbers of a farm are of its visit. */
const ofVisit = 2;

/** One line a farm: when, how many to lift, how many of those late, and what else stands open. */
export function shortTable(words: Words, round: Round, today: CalendarDay): TableSection {
  const farms = farmsOf(round);
  const section = { id: 'short', heading: words.say('round.short') };
  if (farms.length === 0) return { ...section, lead: [words.say('round.empty')] };
  return {
    ...section,
    lead: [],
    table: {
      id: 'short-table',
      caption: words.say('round.short-caption'),
      columns: [
        { head: words.say('round.farm-name') },
        { head: words.say('round.visit') },
        ...['lift', 'late', 'for-vet', 'withheld', 'not-reported'].map((key) => ({
          head: words.say(`round.${key}`),
          number: true,
        })),
      ],
      rows: farms.map((farm) => {
        const { visit, work } = farm;
        return {
          cells: [
            { text: work.record.farm.farm, ...linkTo(round, farm) },
            { text: visit === undefined ? words.say('round.not-planned') : planDay(words, visit, today) },
            ...counts(farm).map((count, at) =>
              // of a visit on another day nothing was asked: no nought that reads as nothing late there
              at < ofVisit && round.outside.includes(farm) ? { text: '–' } : { text: String(count) },
            ),
          ],
        };
      }),
    },
  };
}

/** A farm whose visit falls outside the days asked for has no part of its own on the page. */
function linkTo({ outside }: Round, farm: RoundFarm): { href?: string } {
  return outside.includes(farm) ? {} : { href: `#farm-${farm.work.record.slug}` };
}

function counts(farm: RoundFarm): readonly number[] {
  const besides = farm.work.cases.map((one) => openBesides(one, farm.until));
  const of = (test: (one: (typeof besides)[number]) => boolean) => besides.filter(test).length;
  return [
    farm.lifts.length,
    overdueLifts(farm).length,
    of(({ notices }) => notices.length > 0),
    of(({ isWithheld }) => isWithheld),
    besides.reduce((sum, { notReported }) => sum + notReported.length, 0),
  ];
}
