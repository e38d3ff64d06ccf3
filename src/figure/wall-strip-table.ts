import { daysBetween } from '../record/calendar-day.js';
import { dayInWords } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import { roundMonths } from './bar-notes.js';
import type { FigureTable } from './figure.js';
import { px } from './svg-mark.js';
import type { WallBar, WallStripInput } from './drawn-wall.js';

/** Every visit of the strip, those left out of the drawing too, then what is expected. */
export function wallStripTable(input: WallStripInput, caption: string, words: Words): FigureTable {
  const say = (key: string, values = {}) => words.say(`figure.wall.${key}`, values);
  const days = [...input.bars, ...input.expected].map(({ date }) => date);
  const since = (at: number) => (at === 0 ? '' : String(daysBetween(days[at - 1]!, days[at]!)));
  const range = (low: number, high: number) =>
    words.say('figure.range', { low: Math.round(Math.max(0, low)), high: Math.round(high) });
  return {
    caption,
    columns: ['date', 'days', 'top', 'wall', 'expected', 'reads'].map((key) => say(`column.${key}`)),
    rows: [
      ...input.bars.map((bar, at) => [
        dayInWords(words, bar.date),
        since(at),
        bar.topMm === undefined ? '' : px(bar.topMm),
        wallInWords(bar, words),
        bar.expectedMm === undefined
          ? ''
          : range(
              bar.expectedMm - (bar.expectedHalfRangeMm ?? 0),
              bar.expectedMm + (bar.expectedHalfRangeMm ?? 0),
            ),
        readsAs(bar, words),
      ]),
      ...input.expected.map(({ date, lowMm, highMm }, at) => [
        dayInWords(words, date),
        since(input.bars.length + at),
        range(lowMm, highMm),
        px(input.wall.mm),
        '',
        say('reads.expected'),
      ]),
    ],
  };
}

function wallInWords(bar: WallBar, words: Words): string {
  const mm = px(bar.wallMm);
  if (bar.lowered) return words.say('figure.wall.lowered-wall', { mm });
  return bar.wallMeasured ? mm : words.say('figure.wall.usual-wall', { mm });
}

function readsAs(bar: WallBar, words: Words): string {
  const say = (key: string, values = {}) => words.say(`figure.wall.reads.${key}`, values);
  const kind =
    bar.kind === 'ran-up' && bar.ranUpMm !== undefined && bar.lostMonths !== undefined
      ? say('ran-up-by', { mm: Math.round(bar.ranUpMm), months: px(roundMonths(bar.lostMonths)) })
      : say(bar.kind ?? 'no-length');
  const reads = bar.unused && bar.kind !== undefined ? say('unused', { reads: kind }) : kind;
  if (bar.state === undefined || bar.state === 'open') return reads;
  const state = words.say(`vocabulary.state.${bar.state}`);
  return bar.kind === undefined ? state : say('with-state', { reads, state });
}
