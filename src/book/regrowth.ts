import type { LesionGrowth, OutRange } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { TableSection } from './book-page.js';
import type { PlacedCase } from './case-work.js';
import { nameInBook } from './finding-in-words.js';

/** When each gap in the wall should be out, with its range and what it rests on, or why no date is given. */
export function composeRegrowth(words: Words, one: PlacedCase): TableSection | undefined {
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
    lead: [words.say('book.regrowth.lead')],
    table: {
      id: `${one.id}-regrowth-table`,
      caption: words.say('book.regrowth.caption', { animal: one.record.animal.animal }),
      columns: ['gap', 'out', 'rests-on'].map((key) => ({ head: words.say(`book.regrowth.${key}`) })),
      rows: gaps.map((gap) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, gap.lesion) },
          { text: outInWords(words, gap) },
          { text: basisInWords(words, one, gap) },
        ],
      })),
    },
  };
}

function outInWords(words: Words, { forecast }: LesionGrowth): string {
  if (forecast.outcome === 'range')
    return rangeInWords(
      words,
      forecast.out,
      forecast.ifSoundHornFollows ? 'book.regrowth.if-sound' : 'book.regrowth.range',
    );
  const why = words.say(`figure.wall.why.${forecast.why}`);
  return forecast.ifRanUp
    ? `${why} ${rangeInWords(words, forecast.ifRanUp.out, 'book.regrowth.if-ran-up')}`
    : why;
}

function rangeInWords(words: Words, { early, best, late }: OutRange<CalendarDay>, key: string): string {
  if (early === null) return words.say('book.regrowth.not-within-five-years');
  const day = (value: CalendarDay) => dayInWords(words, value);
  if (late === null) return words.say(`${key}-open`, { early: day(early) });
  return words.say(key, { early: day(early), late: day(late), best: best === null ? '' : day(best) });
}

function basisInWords(words: Words, one: PlacedCase, gap: LesionGrowth): string {
  const used = gap.readings.filter((reading) => reading.topMm !== undefined && !reading.unused);
  const tools = [
    ...new Set(used.map(({ tool }) => words.say(tool ? `vocabulary.tool.${tool}` : 'book.regrowth.no-tool'))),
  ];
  const { wall } = gap;
  return [
    words.say('book.regrowth.readings', { count: used.length, tools: tools.join(', ') || '–' }),
    wall.measured
      ? words.say('book.regrowth.wall-measured', {
          mm: wall.mm,
          day: dayInWords(words, wall.measured.date),
        })
      : words.say('book.regrowth.wall-reference', { mm: wall.mm }),
    ...(wall.likelyTooLong ? [words.say('book.regrowth.likely-too-long')] : []),
    words.say('book.regrowth.rate', {
      rate: gap.referenceMmPerMonth.toFixed(1),
      factor: one.growth.factor.mean.toFixed(2),
      spread: Math.sqrt(one.growth.factor.variance).toFixed(2),
    }),
  ].join(' ');
}
