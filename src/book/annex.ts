import { createHash } from 'node:crypto';
import { type Pooled, pooledOn } from '../herd/pooled-on.js';
import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import { unsealed } from '../ledger/seals-of-farm.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import { told, type Words, wordsOf } from '../reference/words.js';
import { missingOnFarm } from '../schedule/missing-on-farm.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { caseChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-and-place.js';
import type { PlacedCase } from './animal-page-data.js';
import { animalRecord } from './animal-record.js';
import { pageStyle } from './book-style.js';
import { placeCases } from './compose-book.js';
import { composeEstimates, lesionTable } from './estimates.js';
import { composeFarmFigures } from './farm-figures.js';
import { composeFarmPage } from './farm-page.js';
import { composeFootbathPage } from './footbath-page.js';
import { composeLastPage, type LastPage } from './last-page.js';
import { composeMoneyCard } from './money-card.js';
import { missingSection } from './missing-lines.js';
import { storyOf } from './narrative.js';
import { dataTable, heads, type TableSection } from './page-parts.js';
import { renderPage } from './render-page.js';
import { composeSealing, correctionsTable, withHead } from './seals/corrections-table.js';
import { composeVisitLog, logSetting } from './visit-log.js';
import { photoInWords } from './work-in-words.js';

/** What is behind a farm's book, as finished page data: every record whole, the method, every number with its source. */
export type AnnexPage = ReturnType<typeof composeAnnex>;

/** What an annex holds beyond what the records say. */
export interface AnnexOptions {
  /** A picture's bytes by the name in the record; undefined where none can be read. */
  readonly read: (file: string) => Uint8Array | undefined;
  /** Only these of the farm's cases, and no figures of the farm, which are of all its animals. */
  readonly only?: readonly CaseRecord[];
  /** Whether a picture named in the record is there; without it none is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
  /** Its records beside their seals; without them the annex says they are not sealed. */
  readonly seals?: FarmSeals | undefined;
  /** What all farms teach on that day, where it is known already; worked out otherwise. */
  readonly pooled?: Pooled;
}

/**
 * A farm's annex as of a day, as page data: the animals in the order of the whole book.
 *
 * Shape:   the practice whole, one of its farms and a day → finished page data, the same for the same input
 * Checked: tests/book/annex.test.ts, tests/book/everything-recorded.test.ts
 */
export function composeAnnex(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  { read, only, isPictureThere, seals, pooled = pooledOn(practice, today) }: AnnexOptions,
) {
  const { business } = practice;
  const words = wordsOf(farm.farm.language ?? business.language ?? 'en-GB');
  const known = { business, today, priors: pooled.priors, ...given({ isPictureThere }) };
  const annexed = { ...farm, cases: only ?? farm.cases };
  const chosen = new Set(annexed.cases.map(({ slug }) => slug));
  const cases = placeCases(workOutFarm(farm, known)).filter(({ record }) => chosen.has(record.slug));
  const beside = sealsOf(seals ?? unsealed(farm), chosen);
  const values = { farm: told(farm.farm.farm), day: dayInWords(words, today) };
  const animals = cases.map((one) => ({
    id: one.id,
    number: one.record.animal.animal,
    chip: caseChip(words, one.standing),
    /** How each date of hers is reached. */
    estimates: composeEstimates(words, one, today),
    /** Only where the business gives prices. */
    ...given({ money: composeMoneyCard({ words, practice, farm, today }, one) }),
    ...wholeRecord(words, practice, farm, one, { read, seals: beside.animals.get(one.record.slug) }),
  }));
  const named = animals.map(({ id, number, chip: standing }) => ({
    id,
    heading: words.say('annex.animal', { number, standing }),
  }));
  const figures = only ? [] : composeFarmFigures(words, business, farm, today, pooled);
  const page = {
    animals,
    farm: composeFarmPage(words, farm, figures, today),
    ...given({ footbath: composeFootbathPage(words, farm.farm, today) }),
    last: composeLastPage(words, practice, pooled, missingSection(words, cases, missingOnFarm(farm, today)), {
      sealing: composeSealing(words, seals),
      corrections: correctionsTable(words, annexed, beside),
    }),
  };
  return {
    language: words.language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('annex.title', values),
    running: withHead(words, words.say('annex.running', values), seals),
    pageWord: words.say('book.page'),
    skip: words.say('annex.skip'),
    back: words.say('book.back'),
    kicker: words.say('annex.kicker'),
    heading: told(farm.farm.farm),
    by: words.semicolons([business.business, business.trimmer, business.phone].map(told)),
    facts: [
      { label: words.say('annex.day'), value: values.day },
      { label: words.say('annex.animals'), value: String(cases.length) },
      { label: words.say('annex.visits'), value: visitsInWords(words, annexed) },
    ],
    about: words.say('annex.about'),
    contents: {
      heading: words.say('annex.contents'),
      lines: contentsOf(named, [page.farm, page.footbath], page.last),
    },
    ...page,
  };
}

/** A farm's annex as one self-contained HTML file. */
export function renderAnnex(page: AnnexPage): string {
  return renderPage('annex.njk', page, pageStyle(page, 'annex.css'));
}

/** All that is on record of one animal, said once: who she is, her lesions, every visit, her pictures by name, her story. */
export function wholeRecord(
  words: Words,
  practice: Practice,
  farm: FarmRecord,
  one: PlacedCase,
  { read, seals }: { readonly read: AnnexOptions['read']; readonly seals?: AnimalSeals | undefined },
) {
  const { animal, narrative } = one.record;
  return {
    record: animalRecord(words, animal, seals),
    lesionsHeading: words.say('book.lesions.heading'),
    ...given({ lesions: lesionTable(words, one) }),
    log: composeVisitLog(words, one.id, animal, logSetting(practice, farm, seals)),
    ...given({ pictures: picturesByName(words, one, read) }),
    ...given({ narrative: storyOf(words.say('book.animal.narrative'), narrative) }),
  };
}

/** Each picture with what is written of it, and the hash by which its file is known again. */
function picturesByName(
  words: Words,
  { id, record: { animal } }: PlacedCase,
  read: AnnexOptions['read'],
): TableSection | undefined {
  const rows = animal.visits.flatMap(({ date, photos = [] }) =>
    photos.map((photo) => {
      const bytes = read(photo.file);
      return [
        photo.file,
        dayInWords(words, date),
        { text: photoInWords(words, photo) || '–', ...given({ note: told(photo.caption) }) },
        bytes ? createHash('sha512').update(bytes).digest('hex') : words.say('annex.pictures.not-there'),
      ];
    }),
  );
  if (rows.length === 0) return undefined;
  return {
    id: `${id}-pictures`,
    heading: words.say('picture.heading'),
    lead: [words.say('annex.pictures.lead')],
    table: dataTable(
      `${id}-pictures-table`,
      words.say('annex.pictures.caption', { animal: animal.animal }),
      heads(words, 'annex.pictures', 'file', 'day', 'shows', 'hash'),
      rows,
    ),
  };
}

function sealsOf(seals: FarmSeals, chosen: ReadonlySet<string>): FarmSeals {
  return { ...seals, animals: new Map([...seals.animals].filter(([slug]) => chosen.has(slug))) };
}

function visitsInWords(words: Words, { cases }: FarmRecord): string {
  const days = cases.flatMap(({ animal }) => animal.visits.map(({ date }) => date)).toSorted();
  const [from, to] = [days[0], days.at(-1)];
  return from && to
    ? words.say('annex.visits-from-to', {
        count: days.length,
        from: dayInWords(words, from),
        to: dayInWords(words, to),
      })
    : words.say('annex.no-visits');
}

interface Place {
  readonly id: string;
  readonly heading: string;
}

function contentsOf(animals: readonly Place[], farm: readonly (Place | undefined)[], last: LastPage) {
  const { numbers, sources, glossary, missing, corrections, sign } = last;
  const places = [
    ...animals,
    ...farm,
    last,
    numbers,
    { id: 'sources', heading: sources.heading },
    { id: 'glossary', heading: glossary.heading },
    missing,
    corrections,
    { id: 'sign', heading: sign.heading },
  ];
  return places.flatMap((place) => (place ? [{ href: `#${place.id}`, text: place.heading }] : []));
}
