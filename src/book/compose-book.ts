import { smallest } from '../statistics/estimate.js';
import { worstFirst } from '../healing/worst-first.js';
import { urgencies } from '../reference/notices.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type PlacedCase, lesionLines, animalCell, fact } from './animal-page-data.js';
import { type Pooled, pooledOn } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { unsealed, type FarmSeals } from '../ledger/seals-of-farm.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, told, wordsOf } from '../reference/words.js';
import { composeAnimalPage } from './animal-page.js';
import type { BookPage } from './book-page.js';
import { composeFarmFigures } from './farm-figures.js';
import { composeFarmPage } from './farm-page.js';
import { composeFootbathPage } from './footbath-page.js';
import { composeJobs } from './job-list.js';
import { composeVetList, composeWithheld } from './withheld-list.js';
import { missingOnFarm } from '../schedule/missing-on-farm.js';
import { missingSection } from './missing-lines.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { composeLastPage } from './last-page.js';
import { correctionsTable, composeSealing, withHead } from './seals/corrections-table.js';
import { picturesInBook } from './picture-strips.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { isOpen, nextLift, plannedVisit } from '../schedule/next-lift.js';
import type { Contents, ContentsLine, HerdStrips, Cover } from './first-pages-data.js';
import { animalSentence } from '../words/compose-animal.js';
import { smallStrip } from '../figure/small-strip.js';
import { wallStripInput } from '../figure/wall-strip-input.js';
import type { Farm } from '../record/farm.js';
import { caseChip, standingChip } from '../words/compose-standing.js';

/** Cases in the order of the book, worst first and closed after open, each with its place. */
export function placeCases(cases: readonly CaseWork[]): PlacedCase[] {
  const ordered = cases.map((one) => {
    const urgent = one.notices
      .filter((notice) => notice.standing)
      .map((notice) => urgencies.indexOf(notice.urgency));
    return {
      ...one,
      slug: one.record.slug,
      ...(urgent.length > 0 ? { urgency: smallest(urgent) } : {}),
    };
  });
  return worstFirst(ordered).map((one, at) => ({
    ...one,
    id: `animal-${one.slug}`,
    place: at + 1,
    of: cases.length,
  }));
}

const over = new Set(['healed', 'joined']);

/** The open wall gaps of the herd side by side, worst first, so that the whole farm is seen together; open cases without one are named. */
function composeHerdStrips(
  words: Words,
  farm: Farm,
  open: readonly PlacedCase[],
  today: CalendarDay,
): HerdStrips {
  const strips = open.flatMap((one) => {
    const next = nextLift(farm, one, today);
    return one.growth.lesions
      .filter(({ readings }) => readings.length > 0)
      .flatMap((gap) => {
        const standing = one.standing.lesions.find(({ lesion }) => lesion === gap.lesion);
        if (!standing || over.has(standing.standing)) return [];
        const input = wallStripInput(
          gap,
          one.record.animal,
          next === undefined ? [] : [next],
          `herd-${one.record.slug}`,
          today,
        );
        return [
          {
            href: `#${one.id}`,
            number: one.record.animal.animal,
            place: words.say('jobs.case', { place: one.place }),
            standing: standingChip(words, standing),
            svg: smallStrip(input, words).svg,
          },
        ];
      });
  });
  const shown = new Set(strips.map(({ href }) => href));
  const others = open.filter((one) => !shown.has(`#${one.id}`));
  return {
    heading: words.say('book.herd.heading'),
    lead: words.say(strips.length > 0 ? 'book.herd.lead' : 'book.herd.none'),
    strips,
    ...(others.length > 0 ? { othersLead: words.say('book.herd.others') } : {}),
    others: others.map((one) => ({ ...animalCell(words, one), standing: caseChip(words, one.standing) })),
  };
}

/** What a book holds beyond what the record says. */
export interface BookOptions {
  /** Leave closed cases out, but for one whose milk or meat is withheld. */
  readonly openOnly?: boolean;
  /** Whether a picture named in the record is there; without it none is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
  /** Its pictures made ready; without them each is only named. */
  readonly pictures?: BookPictures;
  /** Its records beside their seals; without them the book says they are not sealed. */
  readonly seals?: FarmSeals | undefined;
  /** What all farms teach on that day, where it is known already; worked out otherwise. */
  readonly pooled?: Pooled;
}

/**
 * A farm's book as it stands on a day, as page data.
 *
 * Shape:   the practice whole, one of its farms and a day → finished page data, the same for the same input
 * Checked: tests/book/
 */
export function composeBook(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  options: BookOptions = {},
): BookPage {
  const pooled = options.pooled ?? pooledOn(practice, today);
  const worked = workOutFarm(farm, {
    business: practice.business,
    today,
    priors: pooled.priors,
    ...(options.isPictureThere ? { isPictureThere: options.isPictureThere } : {}),
  });
  const language = farm.farm.language ?? practice.business.language ?? 'en-GB';
  const words = wordsOf(language);
  const inBook = options.openOnly ? worked.filter(staysInShortBook) : worked;
  const leftOut = options.openOnly ? worked.length - inBook.length : undefined;
  const cases = placeCases(inBook);
  const open = cases.filter(({ standing }) => !standing.closed);
  const closed = cases.filter(({ standing }) => standing.closed);
  const page = (one: (typeof cases)[number]) =>
    composeAnimalPage(words, practice, farm, one, today, {
      seals: seals.animals.get(one.record.slug),
      ...(options.pictures ? { pictures: options.pictures } : {}),
    });
  const seals = options.seals ?? unsealed(farm);
  const footbath = composeFootbathPage(words, farm.farm, today);
  const day = dayInWords(words, today);
  return {
    slug: farm.slug,
    language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('book.title', { farm: told(farm.farm.farm), day }),
    running: withHead(words, words.say('book.running', { farm: told(farm.farm.farm), day }), options.seals),
    pageWord: words.say('book.page'),
    skip: words.say('book.skip'),
    back: words.say('book.back'),
    cover: composeCover(words, practice, farm, cases, today, leftOut),
    next: composeJobs(words, farm.farm, cases, today),
    vetList: composeVetList(words, farm.farm, cases, today),
    withheld: composeWithheld(words, farm.farm, cases, today),
    herd: composeHerdStrips(words, farm.farm, open, today),
    contents: composeContents(words, open, closed, { hasFootbath: footbath !== undefined, leftOut }),
    animals: open.map(page),
    closedHeading: words.say('book.closed'),
    closed: closed.map(page),
    farm: composeFarmPage(
      words,
      farm,
      composeFarmFigures(words, practice.business, farm, today, pooled),
      today,
    ),
    ...(footbath ? { footbath } : {}),
    last: composeLastPage(words, practice, pooled, missingSection(words, cases, missingOnFarm(farm, today)), {
      pictures: picturesInBook(words, options.pictures),
      sealing: composeSealing(words, options.seals),
      corrections: correctionsTable(words, farm, seals),
    }),
  };
}

/** A closed case with milk or meat still withheld stays: nobody reading a short book may miss it. */
function staysInShortBook({ standing, due }: CaseWork): boolean {
  return !standing.closed || due.some(isOpen);
}

/** Every animal with her standing in one plain sentence, linked, in the order of the book. */
function composeContents(
  words: Words,
  open: readonly PlacedCase[],
  closed: readonly PlacedCase[],
  { hasFootbath, leftOut }: { hasFootbath: boolean; leftOut: number | undefined },
): Contents {
  const line = (one: PlacedCase): ContentsLine => ({
    href: `#${one.id}`,
    place: words.say('book.contents.place', { place: one.place }),
    number: one.record.animal.animal,
    lesions: words.semicolons(lesionLines(words, one)),
    sentence: animalSentence(words, one.record.animal, one.standing),
  });
  return {
    heading: words.say('book.contents.heading'),
    ...(leftOut === undefined
      ? {}
      : { leftOut: words.say(`book.contents.left-out${leftOut === 0 ? '.none' : ''}`, { count: leftOut }) }),
    ...(open.length > 0
      ? {}
      : {
          empty: words.say(
            closed.length + (leftOut ?? 0) === 0 ? 'book.contents.empty' : 'book.contents.no-open',
          ),
        }),
    ...(open.length > 0 ? { openHeading: words.say('book.contents.open') } : {}),
    open: open.map(line),
    ...(closed.length > 0 ? { closedHeading: words.say('book.contents.closed') } : {}),
    closed: closed.map(line),
    others: [
      { href: '#next', text: words.say('book.contents.first') },
      { href: '#herd', text: words.say('book.contents.herd') },
      { href: '#farm', text: words.say('book.contents.farm') },
      ...(hasFootbath ? [{ href: '#footbath', text: words.say('book.contents.footbath') }] : []),
      ...['last', 'numbers', 'sources', 'glossary', 'gaps', 'sign'].map((id) => ({
        href: `#${id}`,
        text: words.say(`book.contents.${id}`),
      })),
    ],
  };
}

/** Whose book, by whom, of which day, over what time, and how much is in it. */
function composeCover(
  words: Words,
  practice: Practice,
  { farm }: FarmRecord,
  cases: readonly CaseWork[],
  today: CalendarDay,
  /** Of a short book: closed cases that are not in it. */
  leftOut?: number,
): Cover {
  const { business } = practice;
  const visits = cases.flatMap(({ record }) => record.animal.visits);
  const days = visits.map((visit) => visit.date).sort();
  const [first, last] = [days[0], days.at(-1)];
  const visit = plannedVisit(farm, today);
  const open = cases.filter(({ standing }) => !standing.closed).length;
  return {
    kicker: words.say('book.cover.kicker'),
    farm: told(farm.farm),
    by: words.semicolons([business.business, business.trimmer, business.phone].map(told)),
    facts: [
      { label: words.say('book.cover.date'), value: dayInWords(words, today) },
      {
        label: words.say('book.cover.visits'),
        value:
          first && last
            ? words.say('book.cover.visits-from-to', {
                count: visits.length,
                from: dayInWords(words, first),
                to: dayInWords(words, last),
              })
            : words.say('book.cover.no-visits'),
      },
      {
        label: words.say('book.cover.animals'),
        value:
          leftOut === undefined
            ? words.say('book.cover.animal-count', {
                open,
                closed: cases.length - open,
              })
            : words.say('book.cover.animal-count-short', { count: cases.length, left: leftOut }),
      },
      ...fact(
        words,
        'book.cover.next-visit',
        visit ? dayInWords(words, visit) : words.say('book.cover.not-planned'),
      ),
    ],
  };
}
