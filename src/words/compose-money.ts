import type { Costs, NotInSum } from '../money/costs.js';
import { sumAsText } from '../money/hundredths.js';
import type { Span, ToFinish } from '../money/to-finish.js';
import type { Animal } from '../record/animal.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { nameOf } from './compose-standing.js';
import { paragraph } from './number-in-words.js';
import type { Words } from './words.js';

/** What is on record and not in a sum, each with its reason, as one list; undefined where all is in it. */
export function notInSumItems(words: Words, { notInSum }: Costs): string | undefined {
  if (notInSum.length === 0) return undefined;
  return notInSum.map((one) => notItem(words, one)).join('; ');
}

function notItem(words: Words, { what, count, why }: NotInSum): string {
  const counted = why === 'not-recorded' ? 'product' : what;
  return words.say(`money.not.${why}`, { what: words.say(`money.count.${counted}`, { count }) });
}

/**
 * What completing a case would take, with its pace, its range and what it leaves out; or why it is not given.
 *
 * Checked: tests/words/money-sentences.test.ts
 */
export function toFinishSentence(words: Words, animal: Animal, finish: ToFinish, currency: string): string {
  const named = (lesions: readonly string[]) => lesions.map((name) => nameOf(words, animal, name)).join('; ');
  if (finish.outcome === 'none') {
    const nothing = finish.why === 'nothing-dated' && finish.lesions.length === 0;
    return words.say(`money.finish.none.${nothing ? 'nothing-open' : finish.why}`, {
      lesions: named(finish.lesions),
    });
  }
  const { days, pace, visits, blocks, sum, ifSoundHornFollows, without } = finish;
  const months = words.say('money.months', { value: spanText(words, monthsOf(days)) });
  const taken =
    pace && visits && blocks
      ? words.say('money.finish.pace', {
          every: words.say('money.days', { count: pace.everyDays }),
          from: words.say(`money.finish.from.${pace.from}`),
          fitted: words.say('money.count.block', { count: pace.blocks }),
          visits: words.say('money.count.visit', { count: pace.visits }),
          more: words.say('money.finish.more', { count: visits.high, value: spanText(words, visits) }),
          blocks: words.say('money.finish.blocks', { count: blocks.high, value: spanText(words, blocks) }),
          months,
        })
      : words.say('money.finish.no-pace', { months });
  return paragraph(
    taken,
    sum &&
      words.say('money.finish.sum', {
        sum: spanText(words, { low: sumAsText(sum.low), high: sumAsText(sum.high) }),
        currency,
      }),
    ifSoundHornFollows ? words.say('money.finish.if-sound') : undefined,
    without.length > 0 ? words.say('money.finish.without', { lesions: named(without) }) : undefined,
  );
}

/** Days as months with a tenth, the early end rounded down and the late one up. @example monthsOf({ low: 69, high: 145 }) // → { low: 2.2, high: 4.8 } */
export function monthsOf({ low, high }: Span<number>): Span<number> {
  const tenths = (days: number) => (10 * days) / growthNumbers.month.value;
  return { low: Math.floor(tenths(low)) / 10, high: Math.ceil(tenths(high)) / 10 };
}

function spanText(words: Words, { low, high }: Span<number> | Span<string>): string {
  return low === high ? `${low}` : words.say('money.range', { low, high });
}
