import type { Animal } from '../record/animal.js';
import type { ProductUse } from '../record/visit.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { Fact } from './page-parts.js';
import { phrase } from './fact.js';
import { nameInBook } from './finding-in-words.js';

/** A product given or put on: what it is; how, where and when; what is withheld; whose hand and order. A line each. */
export function productFact(
  words: Words,
  animal: Animal,
  use: ProductUse,
  currency: string | undefined,
): Fact {
  const said = (key: string, value: string | number | undefined) =>
    value === undefined ? undefined : words.say(`book.product.${key}`, { value });
  const counted = (key: string, count: number | undefined) =>
    count === undefined ? undefined : words.say(`book.product.${key}`, { count });
  const lines = [
    phrase(
      said('amount', use.amount),
      said('route', use.route),
      use.lesion && words.say('book.product.lesion', { lesion: nameInBook(words, animal, use.lesion) }),
      ...daysGiven(words, use),
    ),
    phrase(
      counted('milk-days', use['milk-days']),
      counted('milk-hours', use['milk-hours']),
      counted('milk-milkings', use['milk-milkings']),
      counted('milk-days-after-calving', use['milk-days-after-calving']),
      counted('meat-days', use['meat-days']),
    ),
    phrase(
      said('given-by', use['given-by']),
      said('prescribed-by', use['prescribed-by']),
      use.cost === undefined
        ? undefined
        : words.say('book.product.cost', { value: use.cost.toFixed(2), currency: currency ?? '' }).trim(),
    ),
    use.note ?? '',
  ].filter((line) => line !== '');
  return {
    label: words.say('book.log.product'),
    value: phrase(
      use.product,
      said('active', use.active),
      use.class && words.say(`vocabulary.product-class.${use.class}`),
      said('batch', use.batch),
    ),
    ...(lines.length > 0 ? { lines } : {}),
  };
}

/** The first and the last day, or the one day that is both. */
function daysGiven(words: Words, { on, until }: ProductUse): (string | undefined)[] {
  const day = (key: string, of: string | undefined) =>
    of && words.say(`book.product.${key}`, { day: dayInWords(words, of) });
  return on !== undefined && on === until ? [day('one-day', on)] : [day('on', on), day('until', until)];
}
