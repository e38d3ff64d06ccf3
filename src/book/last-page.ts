import { standingWords, type StandingWordEntry } from '../reference/standing-words.js';
import { type Words, told } from '../reference/words.js';
import type { TextList, FactList, TableSection } from './page-parts.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { Practice } from '../record/practice.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { fixedDays } from '../reference/intervals.js';
import { studyResults } from '../reference/study-results.js';
import { learnedSentence, trackRecordSentence, studySentences } from '../words/compose-pooled.js';
import { dayInWords } from '../words/day-and-place.js';
import { fact } from './animal-page-data.js';
import { renderNarrative } from './narrative.js';
import { numbersSection, sourceLines } from './numbers-table.js';

export interface LastPage {
  readonly id: string;
  readonly heading: string;
  readonly sections: readonly TextList[];
  readonly missing?: TableSection;
  /** Where anything was corrected or taken out. */
  readonly corrections?: TableSection;
  readonly glossary?: FactList;
  /** Folded on screen: every number the sums use. */
  readonly numbers: TableSection;
  readonly numbersFold: string;
  readonly sources?: TextList;
  readonly business: FactList;
  readonly narrative?: { readonly heading: string; readonly html: string };
  readonly sign: { readonly heading: string; readonly lead: string; readonly lines: readonly string[] };
}

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

/** What the last page says beside what holds in every book. */
interface LastPageMore {
  readonly pictures: TextList | undefined;
  readonly sealing: TextList;
  readonly corrections: TableSection | undefined;
}

/** How the dates are worked out, what they are not, what always holds, where the numbers come from, and who signs. */
export function composeLastPage(
  words: Words,
  practice: Practice,
  pooled: Pooled,
  missing: TableSection,
  { pictures, sealing, corrections }: LastPageMore,
): LastPage {
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
      ...(pictures ? [pictures] : []),
      listed('limits'),
      sealing,
      whatAlwaysHolds(words),
    ],
    missing,
    ...(corrections ? { corrections } : {}),
    glossary: glossary(words),
    numbers: numbersSection(words),
    numbersFold: words.say('numbers.fold'),
    sources: { heading: words.say('book.last.sources'), items: sourceLines() },
    business: businessFacts(words, practice),
    ...(practice.narrative.trim() === ''
      ? {}
      : {
          narrative: {
            heading: words.say('book.business.notes'),
            html: renderNarrative(practice.narrative, 4),
          },
        }),
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

const glossaryTerms = [
  'coronet',
  'top',
  'wall',
  'gap',
  'line',
  'gait',
  'sound',
  'not-lame',
  'block',
  'wrap',
  'covered',
  'held',
  'ran-up',
  'withheld',
  'range',
] as const;

/** The business as its file declares it. */
function businessFacts(words: Words, { business }: Practice): FactList {
  const money = (key: 'visit' | 'block' | 'wrap' | 'milk-litre') =>
    fact(
      words,
      `book.business.price.${key}`,
      business.prices?.[key] === undefined
        ? undefined
        : words.say('book.business.money', {
            value: words.number(business.prices[key].toFixed(2)),
            currency: business.prices.currency,
          }),
    );
  return {
    heading: words.say('book.business.heading'),
    facts: [
      ...fact(words, 'book.business.name', told(business.business)),
      ...fact(words, 'book.business.trimmer', told(business.trimmer)),
      ...(business.people ?? []).map((person) => ({
        label: words.say('book.business.person'),
        value: words.semicolons([
          told(person.name),
          told(person.training),
          person['valid-to'] &&
            words.say('book.business.valid-to', { day: dayInWords(words, person['valid-to']) }),
        ]),
      })),
      ...fact(words, 'book.business.phone', told(business.phone)),
      ...fact(words, 'book.business.email', told(business.email)),
      ...fact(words, 'book.business.reply-to', told(business['reply-to'])),
      ...fact(words, 'book.business.address', told(business.address)),
      ...fact(
        words,
        'book.business.language',
        business.language && words.say(`vocabulary.language.${business.language}`),
      ),
      ...fact(
        words,
        'book.business.dates',
        business.dates && words.say(`vocabulary.dates.${business.dates}`),
      ),
      ...fact(
        words,
        'book.business.keep-years',
        business['keep-years'] === undefined
          ? undefined
          : words.say('book.business.years', { count: business['keep-years'] }),
      ),
      ...Object.entries(business.intervals ?? {}).map(([name, count]) => ({
        label: words.say('book.farm.interval', { name: words.say(`vocabulary.interval.${name}`) }),
        value: words.say('book.farm.days', { count }),
      })),
      ...fact(words, 'book.business.currency', business.prices?.currency),
      ...money('visit'),
      ...money('block'),
      ...money('wrap'),
      ...money('milk-litre'),
    ],
  };
}
