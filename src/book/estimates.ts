import type { LesionGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { Words } from '../reference/words.js';
import { closingBasis, closingSentence } from '../words/compose-closing.js';
import { basisSentence, outSentence } from '../words/compose-regrowth.js';
import { standingChip } from '../words/compose-standing.js';
import { dayInWords, lesionInWords, paragraph, placeInWords } from '../words/day-and-place.js';
import type { PlacedCase } from './animal-page-data.js';
import { type Cell, type DataTable, dataTable, heads, type TableSection } from './page-parts.js';
import { nameInBook } from './work-in-words.js';

/**
 * When each gap in the wall should be out and each open ulcer closed, with the range and what it is based on, or why no date is
 * given: a table of each that she has.
 */
export function composeEstimates(words: Words, one: PlacedCase, today: CalendarDay): TableSection[] {
  const { animal } = one.record;
  const over = new Set(['healed', 'covered', 'joined']);
  const gaps = one.growth.lesions.filter(
    ({ lesion, readings, forecast }) =>
      readings.length > 0 &&
      !(forecast.outcome === 'none' && forecast.why === 'healed') &&
      animal.lesions[lesion],
  );
  const ulcers = one.closings.filter(
    ({ readings, forecast }) =>
      readings.length > 0 && !(forecast.outcome === 'none' && over.has(forecast.why)),
  );
  const section = (
    name: 'regrowth' | 'closing',
    columns: readonly string[],
    dated: boolean,
    rows: readonly (readonly string[])[],
  ): TableSection[] =>
    rows.length === 0
      ? []
      : [
          {
            id: `${one.id}-${name}`,
            heading: words.say(`book.${name}.heading`),
            lead: ['lead', ...(dated ? ['lead-range'] : [])].map((key) => words.say(`book.${name}.${key}`)),
            table: dataTable(
              `${one.id}-${name}-table`,
              words.say(`book.${name}.caption`, { animal: animal.animal }),
              heads(words, `book.${name}`, ...columns),
              rows,
            ),
          },
        ];
  return [
    ...section(
      'regrowth',
      ['gap', 'out', 'rests-on'],
      gaps.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifRanUp?.out),
      gaps.map((gap) => [
        nameInBook(words, animal, gap.lesion),
        outSentence(words, gap, today) || '–',
        paragraph(basisSentence(words, one.growth, gap), rateInWords(words, one, gap)),
      ]),
    ),
    ...section(
      'closing',
      ['ulcer', 'closed', 'rests-on'],
      ulcers.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifOpeningUp),
      ulcers.map((ulcer) => [
        nameInBook(words, animal, ulcer.lesion),
        closingSentence(words, ulcer, today) || '–',
        closingBasis(words, ulcer) || '–',
      ]),
    ),
  ];
}

/** Her own rate beside the usual one: what the readings have taught of her horn so far. */
function rateInWords(words: Words, { growth: { factor } }: PlacedCase, gap: LesionGrowth): string {
  return words.say('book.regrowth.rate', {
    rate: words.number(gap.referenceMmPerMonth.toFixed(1)),
    factor: words.number(factor.mean.toFixed(2)),
    spread: words.number(Math.sqrt(factor.variance).toFixed(2)),
  });
}

/** Every lesion and growth mark followed in her: what, where, on which line, its status. */
export function lesionTable(words: Words, one: PlacedCase): DataTable | undefined {
  const { animal } = one.record;
  const listed = (list: string, word: string | undefined) =>
    word ? words.say(`vocabulary.${list}.${word}`) : '–';
  const lesions = Object.entries(animal.lesions).map(([name, lesion]): (string | Cell)[] => {
    const standing = one.standing.lesions.find((each) => each.lesion === name);
    const code = standing?.code ?? lesion.code;
    const again = lesion['again-of'];
    const note = words.semicolons([
      code !== lesion.code &&
        words.say('book.lesions.first-called', { lesion: lesionInWords(words, lesion.code) }),
      again && words.say('book.lesions.again-of', { lesion: nameInBook(words, animal, again) }),
    ]);
    return [
      name,
      { text: lesionInWords(words, code), ...given({ note: note || undefined }) },
      placeInWords(words, lesion.foot, lesion.claw),
      listed('site', lesion.site),
      listed('line', lesion.line),
      { text: standing ? standingChip(words, standing) : '–', strong: true },
    ];
  });
  const rows = [...lesions, ...markRows(words, animal)];
  if (rows.length === 0) return undefined;
  return dataTable(
    `${one.id}-lesions`,
    words.say('book.lesions.caption', { animal: animal.animal }),
    heads(words, 'book.lesions', 'name', 'lesion', 'place', 'site', 'line', 'stands'),
    rows,
  );
}

function markRows(words: Words, animal: Animal): (string | Cell)[][] {
  return Object.entries(animal.marks ?? {}).map(([name, { foot, claw, line, 'groove-from': from }]) => [
    name,
    from
      ? {
          text: words.say('book.finding.groove'),
          note: words.say('book.lesions.groove-from', { day: dayInWords(words, from) }),
        }
      : words.say('book.finding.mark'),
    placeInWords(words, foot, claw),
    '–',
    words.say(`vocabulary.line.${line}`),
    '–',
  ]);
}
