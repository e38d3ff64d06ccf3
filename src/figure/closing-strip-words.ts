import { daysBetween } from '../record/calendar-day.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { ClosingBar, ClosingStripInput, ExpectedWidth } from './closing-strip-input.js';
import type { FigureTable } from './figure.js';
import { px } from './svg-mark.js';

/** Length by width; empty without a size. @example sizeInWords({ lengthMm: 22, widthMm: 16 }, words) // → '22 × 16' */
export function sizeInWords({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (widthMm === undefined) return '';
  return lengthMm === undefined
    ? words.say('figure.closing.width-only', { width: px(widthMm) })
    : words.say('figure.closing.size', { length: px(lengthMm), width: px(widthMm) });
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

/** Sentences under the strip: only for marks that occur in it. */
export function closingStripNotes(input: ClosingStripInput, leftOut: number, words: Words): string[] {
  const { bars, expected, outlook } = input;
  const say = (key: string, values = {}) => words.say(`figure.closing.note.${key}`, values);
  return [
    bars.length ? say('scale') : '',
    bars.some(({ widthMm, lengthMm }) => widthMm && lengthMm === undefined) ? say('width-only') : '',
    bars.some(closedWithSize) ? say('covered') : '',
    expected.length ? say('expected') : '',
    bars.length > 1 ? say('spacing') : '',
    leftOut ? words.say('figure.wall.note.left-out', { count: leftOut }) : '',
    outlook ?? '',
  ].filter(Boolean);
}

/** The last three sizes with their days, and the outlook. */
export function closingStripDescription({ bars, outlook }: ClosingStripInput, words: Words): string {
  if (bars.length === 0) return words.say('figure.wall.description.none');
  const sizes = bars.slice(-3).map((bar) =>
    words.say('figure.closing.on-day', {
      date: dayInWords(words, bar.date),
      size: [sizeInWords(bar, words), readsInWords(bar, words)].filter(Boolean).join(', '),
    }),
  );
  return [...sizes, outlook ?? ''].filter(Boolean).join(' ');
}

/** Every visit, those left out of the drawing too, then what is expected. */
export function closingStripTable(
  { bars, expected }: ClosingStripInput,
  caption: string,
  words: Words,
): FigureTable {
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
        bar.lengthMm === undefined ? '' : px(bar.lengthMm),
        bar.widthMm === undefined ? '' : px(bar.widthMm),
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
