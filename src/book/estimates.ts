import type { LesionGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { closingBasis, closingSentence } from '../words/compose-closing.js';
import { basisSentence, outSentence } from '../words/compose-regrowth.js';
import { standingChip } from '../words/compose-standing.js';
import { dayInWords, lesionInWords, paragraph, placeInWords } from '../words/day-and-place.js';
import type { PlacedCase } from './animal-page-data.js';
import type { DataTable, TableSection } from './page-parts.js';
import { nameInBook } from './work-in-words.js';

/** When each ulcer that is open should have closed, with its range and what it rests on, or why no date is given. */
export function composeClosings(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const over = new Set(['healed', 'covered', 'joined']);
  const ulcers = one.closings.filter(
    ({ readings, forecast }) =>
      readings.length > 0 && !(forecast.outcome === 'none' && over.has(forecast.why)),
  );
  if (ulcers.length === 0) return undefined;
  const dated = ulcers.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifOpeningUp);
  return {
    id: `${one.id}-closing`,
    heading: words.say('book.closing.heading'),
    lead: [words.say('book.closing.lead'), ...(dated ? [words.say('book.closing.lead-range')] : [])],
    table: {
      id: `${one.id}-closing-table`,
      caption: words.say('book.closing.caption', { animal: one.record.animal.animal }),
      columns: ['ulcer', 'closed', 'rests-on'].map((key) => ({ head: words.say(`book.closing.${key}`) })),
      rows: ulcers.map((ulcer) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, ulcer.lesion) },
          { text: closingSentence(words, ulcer, today) || '–' },
          { text: closingBasis(words, ulcer) || '–' },
        ],
      })),
    },
  };
}

/** When each gap in the wall should be out, with its range and what it rests on, or why no date is given. */
export function composeRegrowth(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const gaps = one.growth.lesions.filter(
    ({ lesion, readings, forecast }) =>
      readings.length > 0 &&
      !(forecast.outcome === 'none' && forecast.why === 'healed') &&
      one.record.animal.lesions[lesion],
  );
  if (gaps.length === 0) return undefined;
  return {
    id: `${one.id}-regrowth`,
    heading: words.say('book.regrowth.heading'),
    lead: [
      words.say('book.regrowth.lead'),
      ...(gaps.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifRanUp?.out)
        ? [words.say('book.regrowth.lead-range')]
        : []),
    ],
    table: {
      id: `${one.id}-regrowth-table`,
      caption: words.say('book.regrowth.caption', { animal: one.record.animal.animal }),
      columns: ['gap', 'out', 'rests-on'].map((key) => ({ head: words.say(`book.regrowth.${key}`) })),
      rows: gaps.map((gap) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, gap.lesion) },
          { text: outSentence(words, gap, today) || '–' },
          { text: paragraph(basisSentence(words, one.growth, gap), rateInWords(words, one, gap)) },
        ],
      })),
    },
  };
}

/** Her own rate beside the usual one: what the readings have taught of her horn so far. */
function rateInWords(words: Words, one: PlacedCase, gap: LesionGrowth): string {
  return words.say('book.regrowth.rate', {
    rate: words.number(gap.referenceMmPerMonth.toFixed(1)),
    factor: words.number(one.growth.factor.mean.toFixed(2)),
    spread: words.number(Math.sqrt(one.growth.factor.variance).toFixed(2)),
  });
}

/** Every lesion and growth mark followed in her: what, where, on which line, how it stands. */
export function lesionTable(words: Words, one: PlacedCase): DataTable | undefined {
  const { animal } = one.record;
  const lesions = Object.entries(animal.lesions).map(([name, lesion]) => {
    const standing = one.standing.lesions.find((each) => each.lesion === name);
    const code = standing?.code ?? lesion.code;
    const notes = [
      ...(code === lesion.code
        ? []
        : [words.say('book.lesions.first-called', { lesion: lesionInWords(words, lesion.code) })]),
      ...(lesion['again-of']
        ? [words.say('book.lesions.again-of', { lesion: nameInBook(words, animal, lesion['again-of']) })]
        : []),
    ];
    return [
      { text: name },
      {
        text: lesionInWords(words, code),
        ...(notes.length > 0 ? { note: words.semicolons(notes) } : {}),
      },
      { text: placeInWords(words, lesion.foot, lesion.claw) },
      { text: lesion.site ? words.say(`vocabulary.site.${lesion.site}`) : '–' },
      { text: lesion.line ? words.say(`vocabulary.line.${lesion.line}`) : '–' },
      { text: standing ? standingChip(words, standing) : '–', strong: true },
    ];
  });
  const rows = [...lesions, ...markRows(words, animal)];
  if (rows.length === 0) return undefined;
  return {
    id: `${one.id}-lesions`,
    caption: words.say('book.lesions.caption', { animal: animal.animal }),
    columns: ['name', 'lesion', 'place', 'site', 'line', 'stands'].map((key) => ({
      head: words.say(`book.lesions.${key}`),
    })),
    rows: rows.map((cells) => ({ cells })),
  };
}

function markRows(words: Words, animal: Animal) {
  return Object.entries(animal.marks ?? {}).map(([name, mark]) => [
    { text: name },
    mark['groove-from']
      ? {
          text: words.say('book.finding.groove'),
          note: words.say('book.lesions.groove-from', { day: dayInWords(words, mark['groove-from']) }),
        }
      : { text: words.say('book.finding.mark') },
    { text: placeInWords(words, mark.foot, mark.claw) },
    { text: '–' },
    { text: words.say(`vocabulary.line.${mark.line}`) },
    { text: '–' },
  ]);
}
