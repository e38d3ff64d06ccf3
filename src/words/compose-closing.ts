import type { UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { dayInWords, paragraph } from './day-and-place.js';
import { rangeIfInWords, rangeInWords, toolsInWords } from './compose-regrowth.js';
import type { Words, Values } from '../reference/words.js';
import type { GaitScore, GaitStanding } from '../healing/standing.js';
import { fixedDays } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { given } from '../record/given.js';

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
 * What a date of closing is based on: how many widths, by which tool, the usual speed it starts from, how fast the margin came
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
      rate: words.number(perDay.toFixed(1)),
    }),
    marginSentence(words, readings.at(-1)?.marginMmPerDay),
    words.say('standing.basis.limits'),
  );
}

/** How fast the margin came in between the last two looks; empty where length or width was not taken at both. */
function marginSentence(words: Words, mmPerDay: number | undefined): string {
  if (mmPerDay === undefined) return '';
  return words.say(mmPerDay < 0 ? 'closing.margin-out' : 'closing.margin', {
    speed: words.number(Math.abs(mmPerDay).toFixed(2)),
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
  const key = values.high === 0 ? 'next-closed' : values.low === 0 ? 'next-or-closed' : 'next';
  return paragraph(words.say(`closing.${key}`, values), words.say('closing.next-alarm', values));
}

/** The same as a clause for a list. Such as: lame off the block (2 on 2 June 2026). */
export function gaitInShort(words: Words, gait: GaitStanding): string {
  const variant = variantOf(gait).replace(/^(not-lame-not-proved\.too-soon).*$/, '$1');
  return words.say(`gait.short.${variant}`, valuesOf(words, gait));
}

function variantOf({ standing, last, daysOffBlock, blockNow }: GaitStanding): string {
  if (standing === 'sound' || standing === 'lame-off-block')
    return `${standing}.${daysOffBlock === undefined ? 'no-block' : 'off-block'}`;
  if (standing !== 'not-lame-not-proved') return standing;
  if (last?.block === 'on') return `${standing}.on-block`;
  if (last?.block === 'unclear') return `${standing}.unclear`;
  if (daysOffBlock === undefined || daysOffBlock >= fixedDays('off-block-counts') || blockNow === 'on')
    return `${standing}.block-since`;
  return daysOffBlock === 0 ? `${standing}.too-soon.0` : `${standing}.too-soon`;
}

function valuesOf(words: Words, { last, lastOffBlock, daysOffBlock }: GaitStanding): Values {
  if (!last) return {};
  const day = (of: CalendarDay | undefined) => of && dayInWords(words, of);
  return {
    word: words.say(`gait.word.${gaitScale[last.scale].word}`),
    score: last.score,
    day: dayInWords(words, last.date),
    lame: lameInWords(words, last),
    counts: fixedDays('off-block-counts'),
    ...given({
      days: daysOffBlock,
      // The days are counted where there are any: of none the words are another sentence.
      count: daysOffBlock || undefined,
      off: lastOffBlock?.score,
      offDay: day(lastOffBlock?.date),
    }),
  };
}

/** @example lameInWords(words, { severe: true }) // → 'severely lame' */
export function lameInWords(words: Words, { severe }: Pick<GaitScore, 'severe'>): string {
  return words.say(severe ? 'gait.severe' : 'gait.lame');
}
