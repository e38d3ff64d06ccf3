import { type Archive, archiveOn } from '../herd/archive-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { unsealed } from '../ledger/unsealed.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { dayInWords } from '../words/day-in-words.js';
import { wordsOf } from '../words/words.js';
import { composeAnimalPage } from './animal-page.js';
import type { BookPage } from './book-page.js';
import { composeContents } from './contents.js';
import { composeCover } from './cover.js';
import { composeFarmFigures } from './farm-figures.js';
import { composeFarmPage } from './farm-page.js';
import { composeFootbathPage } from './footbath-page.js';
import { composeJobs } from './job-list.js';
import { composeVetList } from './vet-list.js';
import { composeWithheld } from './withheld-list.js';
import { gapsOfFarm } from '../schedule/gaps-of-farm.js';
import { gapTable } from './gap-lines.js';
import { composeHerdStrips } from './herd-strips.js';
import type { BookPictures } from '../picture/book-pictures.js';
import { composeLastPage } from './last-page.js';
import { correctionsTable } from './seals/corrections-table.js';
import { composeSealing, withHead } from './seals/sealing.js';
import { picturesInBook } from './pictures-in-book.js';
import { placeCases } from './place-cases.js';
import type { CaseWork } from '../schedule/case-work.js';
import { workOutFarm } from '../schedule/work-out-farm.js';
import { isOpen } from '../schedule/open-due.js';

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
  readonly archive?: Archive;
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
  const archive = options.archive ?? archiveOn(practice, today);
  const worked = workOutFarm(farm, {
    business: practice.business,
    today,
    priors: archive.priors,
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
    title: words.say('book.title', { farm: farm.farm.farm, day }),
    running: withHead(words, words.say('book.running', { farm: farm.farm.farm, day }), options.seals),
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
      composeFarmFigures(words, practice.business, farm, today, archive),
      today,
    ),
    ...(footbath ? { footbath } : {}),
    last: composeLastPage(words, practice, archive, gapTable(words, cases, gapsOfFarm(farm, today)), {
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
