import { standingWords, type StandingWordEntry } from '../reference/standing-words.js';
import { type Words, told } from '../reference/words.js';
import { type Fact, type FactList, factsOf, type TableSection, type TextList } from './page-parts.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { Practice } from '../record/practice.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { fixedDays } from '../reference/intervals.js';
import { studyResults } from '../reference/study-results.js';
import { learnedSentence, trackRecordSentence, studySentences } from '../words/compose-pooled.js';
import { dayInWords } from '../words/day-and-place.js';
import { intervalFacts } from './farm-page.js';
import { storyOf } from './narrative.js';
import { given } from '../record/given.js';
import { numbersSection, sourceLines } from './numbers-table.js';

export type LastPage = ReturnType<typeof composeLastPage>;

/** What holds in every book, whatever is in it. */
function whatAlwaysHolds(words: Words): TextList {
  const { footbath, betweenFarms } = standingWords;
  const { heading, items } = whatEveryFarmReads(words);
  return { heading, items: [...items, said(words, footbath), said(words, betweenFarms)] };
}

/** The part of it that goes to every farm with anything at all: cautions, before she travels, when to stop work. */
export function whatEveryFarmReads(words: Words): TextList {
  const { cautions, travel } = standingWords;
  return {
    heading: words.say('caution.heading'),
    items: [said(words, cautions), said(words, travel), words.say('book.last.reportable')],
  };
}

function said(words: Words, entries: readonly StandingWordEntry[]): string {
  return entries.map(({ key }) => words.say(`caution.${key}`)).join(' ');
}

/** How the dates are worked out, what they are not, what always holds, where the numbers come from, and who signs. */
export function composeLastPage(
  words: Words,
  practice: Practice,
  pooled: Pooled,
  missing: TableSection,
  { sealing, corrections }: { readonly sealing: TextList; readonly corrections: TableSection | undefined },
) {
  const listed = (name: string, more: readonly string[] = []): TextList => ({
    heading: words.say(`book.last.${name}.heading`),
    items: [...numbered(words, `book.last.${name}`), ...more],
  });
  return {
    id: 'last',
    heading: words.say('book.last.heading'),
    sections: [
      listed('method', [learnedSentence(words, pooled.priors.learned)]),
      listed('trust', [...studySentences(words, studyResults()), trackRecordSentence(words, pooled)]),
      listed('readings'),
      listed('limits'),
      sealing,
      whatAlwaysHolds(words),
    ],
    missing,
    /** Where anything was corrected or taken out. */
    ...given({ corrections }),
    glossary: glossary(words),
    /** Folded on screen: every number the sums use. */
    numbers: numbersSection(words),
    numbersFold: words.say('numbers.fold'),
    sources: { heading: words.say('book.last.sources'), items: sourceLines() },
    business: { heading: words.say('book.business.heading'), facts: businessFacts(words, practice) },
    ...given({ narrative: storyOf(words.say('book.business.notes'), practice.narrative) }),
    sign: {
      heading: words.say('book.last.sign.heading'),
      lead: signedFor(words, practice),
      lines: ['name', 'date', 'signature'].map((key) => words.say(`book.last.sign.${key}`)),
    },
  };
}

function signedFor(words: Words, { business }: Practice): string {
  const name = business.business ?? business.trimmer;
  return name === undefined
    ? words.say('book.last.sign.lead-no-name')
    : words.say('book.last.sign.lead', { business: told(name) });
}

/** The few numbers the method's sentences name, from the same files as the sums. */
const saidNumbers = {
  calliper: growthNumbers.reading.calliper.value,
  ruler: growthNumbers.reading.ruler.value,
  photo: growthNumbers.reading.photo.value,
  eye: growthNumbers.reading.eye.value,
  offBlockDays: fixedDays('off-block-counts'),
};

/** The sentences `KEY.1`, `KEY.2` … as far as they go. */
function numbered(words: Words, key: string): string[] {
  const items: string[] = [];
  for (let at = 1; words.has(`${key}.${at}`); at += 1) items.push(words.say(`${key}.${at}`, saidNumbers));
  return items;
}

/** Only the words that a farmer, a vet or an auditor may read in two ways. */
function glossary(words: Words): FactList {
  return {
    heading: words.say('book.last.glossary'),
    facts: glossaryTerms.map((term) => ({
      label: words.say(`glossary.${term}.word`),
      value: words.say(`glossary.${term}.means`),
    })),
  };
}

const glossaryTerms =
  'coronet top wall gap line gait sound not-lame block wrap covered held ran-up withheld range'.split(' ');

/** The business as its file declares it. */
function businessFacts(words: Words, { business }: Practice): Fact[] {
  const { prices, language, dates, 'keep-years': years } = business;
  const listed = (list: string, value: string | undefined) =>
    value && words.say(`vocabulary.${list}.${value}`);
  const money = (value: number | undefined) =>
    value === undefined
      ? undefined
      : words.say('book.business.money', {
          value: words.number(value.toFixed(2)),
          currency: prices?.currency ?? '',
        });
  const people = (business.people ?? []).map(({ name, training, 'valid-to': to }) => ({
    label: words.say('book.business.person'),
    value: words.semicolons([
      told(name),
      told(training),
      to && words.say('book.business.valid-to', { day: dayInWords(words, to) }),
    ]),
  }));
  return [
    ...factsOf(words, 'book.business', { name: told(business.business), trimmer: told(business.trimmer) }),
    ...people,
    ...factsOf(words, 'book.business', {
      phone: told(business.phone),
      email: told(business.email),
      'reply-to': told(business['reply-to']),
      address: told(business.address),
      language: listed('language', language),
      dates: listed('dates', dates),
      'keep-years': years === undefined ? undefined : words.say('book.business.years', { count: years }),
    }),
    ...intervalFacts(words, business.intervals),
    ...factsOf(words, 'book.business', {
      currency: prices?.currency,
      'price.visit': money(prices?.visit),
      'price.block': money(prices?.block),
      'price.wrap': money(prices?.wrap),
      'price.milk-litre': money(prices?.['milk-litre']),
    }),
  ];
}
