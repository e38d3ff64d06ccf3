import type { OutRange } from '../growth/animal-growth.js';
import type { ClosingRange, UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { toolsInWords } from './tools-in-words.js';
import type { Words } from './words.js';

/**
 * When an ulcer should have closed, in a sentence, or why there is no date; empty where its own sentence says it all
 * (covered, healed, joined). Until there are four widths it is called rough.
 *
 * A day that has passed is never promised: a range that lies behind reads as what the widths said.
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
      rangeSentence(words, forecast, today),
      rough ? words.say('closing.rough', { count: readings.length }) : undefined,
    );
  const key = `closing.no-date.${forecast.why}`;
  const { ifOpeningUp } = forecast;
  return paragraph(
    words.has(key) ? words.say(key) : '',
    ifOpeningUp && ifOpeningUpSentence(words, ifOpeningUp, today),
  );
}

function rangeSentence(words: Words, { out, from }: ClosingRange, today: CalendarDay): string {
  const { early, best, late } = out;
  if (early === null) return words.say('closing.out.none-in-five', inWords(words, { from }));
  const said = inWords(words, {
    early,
    ...(best === null ? {} : { best }),
    ...(late === null ? {} : { late }),
  });
  return words.say(`closing.out.${variantOf(out, today)}`, said);
}

function variantOf({ early, best, late }: OutRange<CalendarDay>, today: CalendarDay): string {
  if (best === null) return 'best-open';
  if (late === null) return 'late-open';
  if (late < today) return 'past';
  if (early === null || early > today) return 'range';
  return best > today ? 'begun' : 'begun-best-past';
}

function ifOpeningUpSentence(words: Words, { out, from }: ClosingRange, today: CalendarDay): string {
  const { early, late } = out;
  if (early === null) return words.say('closing.out.none-in-five', inWords(words, { from }));
  const key = 'closing.out.if-opening-up';
  if (late === null) return words.say(`${key}-open`, inWords(words, { early }));
  const variant = late < today ? '-past' : early <= today ? '-begun' : '';
  return words.say(`${key}${variant}`, inWords(words, { early, late }));
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

function inWords(words: Words, days: Record<string, CalendarDay>): Record<string, string> {
  return Object.fromEntries(Object.entries(days).map(([key, day]) => [key, dayInWords(words, day)]));
}
