import type { UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { rangeIfInWords, rangeInWords } from './range-in-words.js';
import { toolsInWords } from './tools-in-words.js';
import type { Words } from './words.js';

/**
 * When an ulcer should have closed, in a sentence, or why there is no date; empty where its own sentence says it all
 * (covered, healed, joined). Until there are four widths it is called rough.
 *
 * Checked: tests/words/situations.test.ts
 */
export function closingSentence(
  words: Words,
  { forecast, rough, readings }: UlcerClosing,
  today: CalendarDay,
): string {
  if (forecast.outcome === 'range')
    return paragraph(
      rangeInWords(words, 'closing.out', forecast, today),
      rough ? words.say('closing.rough', { count: readings.length }) : undefined,
    );
  const key = `closing.no-date.${forecast.why}`;
  const { ifOpeningUp } = forecast;
  return paragraph(
    words.has(key) ? words.say(key) : '',
    ifOpeningUp && rangeIfInWords(words, 'closing.out.if-opening-up', ifOpeningUp, today),
  );
}

/**
 * What a date of closing rests on: how many widths, by which tool, the usual speed it starts from, how fast the margin came
 * in last, and that it is no diagnosis. Empty where there is no range to rest.
 */
export function closingBasis(words: Words, { forecast, readings }: UlcerClosing): string {
  if (forecast.outcome === 'none' && !forecast.ifOpeningUp) return '';
  const used = readings.filter(({ unused }) => !unused);
  const perDay = (2 * growthNumbers.closing.rate.value) / growthNumbers.month.value;
  return paragraph(
    words.say('closing.basis', {
      count: used.length,
      tools: toolsInWords(words, used),
      rate: perDay.toFixed(1),
    }),
    marginSentence(words, readings.at(-1)?.marginMmPerDay),
    words.say('standing.basis.limits'),
  );
}

/** How fast the margin came in between the last two looks; empty where length or width was not taken at both. */
export function marginSentence(words: Words, mmPerDay: number | undefined): string {
  if (mmPerDay === undefined) return '';
  return words.say(mmPerDay < 0 ? 'closing.margin-out' : 'closing.margin', {
    speed: Math.abs(mmPerDay).toFixed(2),
  });
}

/** How wide it should be on a later day, and beyond what it may be opening up; empty where nothing is expected. */
export function nextWidthSentence(words: Words, closing: UlcerClosing, date: CalendarDay): string {
  const next = closing.nextReading(date);
  if (!next) return '';
  const values = {
    day: dayInWords(words, next.date),
    low: Math.round(next.lowMm),
    high: Math.round(next.highMm),
    alarm: Math.ceil(next.alarmMm),
  };
  return paragraph(
    words.say(
      `closing.${values.high === 0 ? 'next-closed' : values.low === 0 ? 'next-or-closed' : 'next'}`,
      values,
    ),
    words.say('closing.next-alarm', values),
  );
}
