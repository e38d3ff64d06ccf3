import { smallest } from '../statistics/estimate.js';
import { worstFirst } from '../healing/worst-first.js';
import { urgencies } from '../reference/notices.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { PlacedCase } from './animal-page-data.js';
import { composeCowSheet } from './cow-sheet.js';
import { composeFarmBack } from './farm-back.js';
import { roomOn } from './fit.js';
import { composePageOne, fitPageOne } from './page-one.js';
import { given } from '../record/given.js';
import { type Pooled, pooledOn } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { unsealed, type FarmSeals } from '../ledger/seals-of-farm.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { dayInWords } from '../words/day-and-place.js';
import { told, wordsOf } from '../reference/words.js';
import type { BookPage } from './book-page.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { withHead } from './seals/corrections-table.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { isOpen } from '../schedule/next-lift.js';

/** Cases in the order of the book, worst first and closed after open, each with its place. */
export function placeCases(cases: readonly CaseWork[]): PlacedCase[] {
  const ordered = cases.map((one) => {
    const urgent = one.notices.flatMap(({ standing, urgency }) =>
      standing ? [urgencies.indexOf(urgency)] : [],
    );
    const urgency = urgent.length > 0 ? smallest(urgent) : undefined;
    return { ...one, slug: one.record.slug, ...given({ urgency }) };
  });
  return worstFirst(ordered).map((one, at) => ({
    ...one,
    id: `animal-${one.slug}`,
    place: at + 1,
    of: cases.length,
  }));
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
  /** One cow's sheet is to be read alone: its drawings say what their marks mean. */
  readonly alone?: boolean;
  /** What all farms teach on that day, where it is known already; worked out otherwise. */
  readonly pooled?: Pooled;
}

/**
 * A farm's book as of a day, as page data.
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
  const { isPictureThere, pictures, alone } = options;
  const known = { business: practice.business, today, priors: pooled.priors, ...given({ isPictureThere }) };
  const worked = workOutFarm(farm, known);
  const language = farm.farm.language ?? practice.business.language ?? 'en-GB';
  const words = wordsOf(language);
  const inBook = options.openOnly ? worked.filter(staysInShortBook) : worked;
  const leftOut = options.openOnly ? worked.length - inBook.length : undefined;
  const cases = placeCases(inBook);
  const closed = cases.filter(({ standing }) => standing.closed);
  const seals = options.seals ?? unsealed(farm);
  const name = { farm: told(farm.farm.farm), day: dayInWords(words, today) };
  const paper = farm.farm.paper ?? 'A4';
  const one = fitPageOne(words, composePageOne(words, practice, farm, cases, today, leftOut), roomOn(paper));
  return {
    slug: farm.slug,
    language,
    paper,
    title: words.say('book.title', name),
    running: withHead(words, words.say('book.running', name), options.seals),
    pageWord: words.say('book.page'),
    skip: words.say('book.skip'),
    back: words.say('book.back'),
    one,
    farm: composeFarmBack(words, practice, farm, closed, today, {
      pooled,
      cowsOverleaf: one.cows.overleaf.length,
      pictures,
    }),
    cows: cases.map((each) =>
      composeCowSheet(words, practice, farm, each, today, {
        seals: seals.animals.get(each.record.slug),
        ...given({ pictures, alone }),
      }),
    ),
  };
}

/** A closed case with milk or meat still withheld stays: nobody reading a short book may miss it. */
function staysInShortBook({ standing, due }: CaseWork): boolean {
  return !standing.closed || due.some(isOpen);
}
