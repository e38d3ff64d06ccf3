import type { FarmSection } from '../book/book-page.js';
import { phrase } from '../book/fact.js';
import { placeCases } from '../book/place-cases.js';
import { archiveOn } from '../growth/archive-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Practice } from '../record/practice.js';
import type { FarmWork } from '../round/farm-work.js';
import { dayInWords } from '../words/day-in-words.js';
import { wordsOf } from '../words/words.js';
import { dueOutThisMonth } from './due-out.js';
import { learnedSection, trackRecordSection } from './how-good.js';
import { type OfBusiness, openCases } from './of-business.js';
import { openByFarm, openByStanding } from './open-cases.js';
import type { OverviewPage } from './overview-page.js';
import { ranUpOrHeld } from './ran-up-or-held.js';
import { timesSections } from './times.js';

/**
 * The business on one page, for the trimmer's own eyes: every farm is named in it.
 *
 * Shape:   the practice whole, the farms to tell of worked out for `today` → page data; the same for the same input
 * Checked: tests/overview/
 */
export function composeOverview(
  all: Practice,
  work: readonly FarmWork[],
  today: CalendarDay,
  refused: readonly string[] = [],
): OverviewPage {
  const practice = { ...all, farms: all.farms.toSorted(bySlug) };
  const { business } = practice;
  const words = wordsOf(business.language ?? 'en-GB');
  const archive = archiveOn(practice, today);
  const farms = work
    .map((farm) => ({ ...farm, placed: placeCases(farm.cases) }))
    .sort((a, b) => bySlug(a.record, b.record));
  const whole: OfBusiness = { practice, farms, archive, today, refused };
  const open = openCases(whole);
  const day = dayInWords(words, today);
  const sections: (FarmSection | undefined)[] = [
    openByFarm(words, whole),
    openByStanding(words, whole),
    ranUpOrHeld(words, whole),
    dueOutThisMonth(words, whole),
    learnedSection(words, whole),
    trackRecordSection(words, whole),
    ...timesSections(words, whole),
    limits(),
  ];
  return {
    language: words.language,
    paper: farms.length > 0 && farms.every(({ record }) => record.farm.paper === 'Letter') ? 'Letter' : 'A4',
    title: words.say('overview.title', { day }),
    running: words.say('overview.title', { day }),
    pageWord: words.say('book.page'),
    skip: words.say('overview.skip'),
    kicker: words.say('round.kicker'),
    heading: words.say('overview.heading'),
    by: phrase(business.business, business.trimmer),
    facts: [
      { label: words.say('round.as-on'), value: day },
      { label: words.say('overview.farms'), value: String(farms.length) },
      {
        label: words.say('overview.open.heading'),
        value: words.say('overview.of', {
          part: open.length,
          whole: farms.reduce((sum, { cases }) => sum + cases.length, 0),
        }),
      },
    ],
    rest: refused.map((farm) => words.say('overview.refused', { farm })),
    sections: sections.filter((section) => section !== undefined),
  };

  function limits(): FarmSection {
    return {
      id: 'limits',
      heading: words.say('overview.limits.heading'),
      lead: ['few', 'cases', 'no-verdict'].map((key) => words.say(`overview.limits.${key}`)),
    };
  }
}

function bySlug(a: { readonly slug: string }, b: { readonly slug: string }): number {
  return a.slug < b.slug ? -1 : 1;
}
