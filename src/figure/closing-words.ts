import type { OutRange } from '../growth/animal-growth.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';
import type { Words } from '../reference/words.js';
import type { Figure, FigureTable } from './figure.js';
import { placeInWords, dayInWords } from '../words/day-and-place.js';
import { px } from './svg-mark.js';

/** One visit to an ulcer. Lengths in mm, over all. */
export interface ClosingBar {
  readonly date: CalendarDay;
  readonly lengthMm?: number;
  readonly widthMm?: number;
  /** How it reads, beyond plainly open. */
  readonly reads?: 'covered' | 'healed' | 'came-back' | 'opening-up' | 'doubtful' | 'held';
  /** The reading taught nothing. */
  readonly unused?: boolean;
}

/** The width a later visit should show, 80 %. */
export interface ExpectedWidth {
  readonly date: CalendarDay;
  readonly meanMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** All that the drawing of one ulcer shows. */
export interface ClosingInput {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw?: Claw;
  /** Oldest first. */
  readonly bars: readonly ClosingBar[];
  readonly expected: readonly ExpectedWidth[];
  /** When it should have closed. */
  readonly closes?: OutRange<CalendarDay>;
}

/** All an ulcer's drawing says besides its lines. */
export function closingTexts(input: ClosingInput, words: Words): Omit<Figure, 'svg'> {
  const title = words.say('figure.closing.title', {
    lesion: input.lesion,
    place: placeInWords(words, input.foot, input.claw),
  });
  return {
    title,
    description: closingDescription(input, words),
    notes: closingNotes(input, words),
    table: closingTable(input, title, words),
  };
}

/** Length by width; empty without a size. @example sizeInWords({ lengthMm: 22, widthMm: 16 }, words) // → '22 × 16' */
export function sizeInWords({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (!widthMm) return '';
  return lengthMm === undefined
    ? words.say('figure.closing.width-only', { width: words.number(px(widthMm)) })
    : words.say('figure.closing.size', {
        length: words.number(px(lengthMm)),
        width: words.number(px(widthMm)),
      });
}

/** How it reads, empty where it is plainly open. */
export function readsInWords({ reads, widthMm }: ClosingBar, words: Words): string {
  if (reads) return words.say(`figure.closing.state.${reads}`);
  return widthMm === undefined ? words.say('figure.closing.state.no-length') : '';
}

/** @example widthRangeInWords({ lowMm: -1.2, highMm: 5.4 }, words) // → '0 to 5' */
export function widthRangeInWords({ lowMm, highMm }: ExpectedWidth, words: Words): string {
  return words.say('figure.range', { low: Math.round(Math.max(0, lowMm)), high: Math.round(highMm) });
}

function closedWithSize({ reads, widthMm }: ClosingBar): boolean {
  return (reads === 'covered' || reads === 'healed') && Boolean(widthMm);
}

/** Sentences under the drawing: only for marks that occur in it. */
function closingNotes(input: ClosingInput, words: Words): string[] {
  const { bars, closes } = input;
  const say = (key: string, values = {}) => words.say(`figure.closing.note.${key}`, values);
  return [
    bars.length ? say('scale') : '',
    bars.some(closedWithSize) ? say('covered') : '',
    closes?.early ? say('wedge') : '',
  ].filter(Boolean);
}

/** The last three sizes with their days. */
function closingDescription({ bars }: ClosingInput, words: Words): string {
  if (bars.length === 0) return words.say('figure.wall.description.none');
  return bars
    .slice(-3)
    .map((bar) =>
      words.say('figure.closing.on-day', {
        date: dayInWords(words, bar.date),
        size: words.commas([sizeInWords(bar, words), readsInWords(bar, words)]),
      }),
    )
    .join(' ');
}

/** Every visit, then what is expected. */
function closingTable({ bars, expected }: ClosingInput, caption: string, words: Words): FigureTable {
  const say = (key: string) => words.say(`figure.closing.column.${key}`);
  const days = [...bars, ...expected].map(({ date }) => date);
  const since = (at: number) => (at === 0 ? '' : String(daysBetween(days[at - 1]!, days[at]!)));
  return {
    caption,
    columns: [say('date'), words.say('figure.wall.column.days'), say('length'), say('width'), say('reads')],
    rows: [
      ...bars.map((bar, at) => [
        dayInWords(words, bar.date),
        since(at),
        bar.lengthMm === undefined ? '' : words.number(px(bar.lengthMm)),
        bar.widthMm === undefined ? '' : words.number(px(bar.widthMm)),
        readsInWords(bar, words) || words.say('figure.closing.state.open'),
      ]),
      ...expected.map((of, at) => [
        dayInWords(words, of.date),
        since(bars.length + at),
        '',
        widthRangeInWords(of, words),
        words.say('figure.closing.expected'),
      ]),
    ],
  };
}
