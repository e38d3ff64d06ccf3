import type { Animal } from '../record/animal.js';
import type { BlockEvent, Photo, ProductUse, Visit, WrapEvent } from '../record/visit.js';
import { dayInWords } from '../words/day-in-words.js';
import { placeInWords } from '../words/lesion-in-words.js';
import type { Words } from '../words/words.js';
import type { Fact } from './book-page.js';
import { fact, phrase } from './fact.js';
import { nameInBook } from './finding-in-words.js';

/** What was done at one visit: trim, blocks, wraps, products, pictures. */
export function workInWords(
  words: Words,
  animal: Animal,
  visit: Visit,
  currency: string | undefined,
): Fact[] {
  const label = (key: string) => words.say(`book.log.${key}`);
  return [
    ...fact(
      words,
      'book.log.trimmed',
      visit.trimmed?.map((foot) => words.say(`vocabulary.foot.${foot}`)).join(', '),
    ),
    ...fact(
      words,
      'book.log.cut-back',
      visit['cut-back']?.map((name) => nameInBook(words, animal, name)).join('; '),
    ),
    ...(visit.blocks ?? []).map((block) => ({ label: label('block'), value: blockInWords(words, block) })),
    ...(visit.wraps ?? []).map((wrap) => ({ label: label('wrap'), value: wrapInWords(words, wrap) })),
    ...(visit.products ?? []).map((use) => ({
      label: label('product'),
      value: productInWords(words, animal, use, currency),
    })),
    ...fact(
      words,
      'book.log.pain-relief',
      visit['pain-relief'] && words.say(`vocabulary.pain-relief.${visit['pain-relief']}`),
    ),
    ...fact(
      words,
      'book.log.photos',
      visit.photos && visit.photos.length > 0
        ? words.say('book.log.photo-count', { count: visit.photos.length })
        : undefined,
    ),
  ];
}

function dayOfEvent(words: Words, on: BlockEvent['on']): string | undefined {
  if (on === undefined) return undefined;
  return on === 'unknown'
    ? words.say('book.log.day-unknown')
    : words.say('book.log.on-day', { day: dayInWords(words, on) });
}

function blockInWords(words: Words, block: BlockEvent): string {
  return phrase(
    placeInWords(words, block.foot, block.claw),
    words.say(`vocabulary.event.${block.event}`),
    block.material && words.say(`vocabulary.material.${block.material}`),
    dayOfEvent(words, block.on),
    block['carrying-claw'] && words.say(`vocabulary.carrying-claw.${block['carrying-claw']}`),
    block.note,
  );
}

function wrapInWords(words: Words, wrap: WrapEvent): string {
  return phrase(
    placeInWords(words, wrap.foot),
    words.say(`vocabulary.event.${wrap.event}`),
    dayOfEvent(words, wrap.on),
    wrap.note,
  );
}

function productInWords(words: Words, animal: Animal, use: ProductUse, currency: string | undefined): string {
  const said = (key: string, value: string | number | undefined) =>
    value === undefined ? undefined : words.say(`book.product.${key}`, { value });
  const counted = (key: string, count: number | undefined) =>
    count === undefined ? undefined : words.say(`book.product.${key}`, { count });
  return phrase(
    use.product,
    said('active', use.active),
    use.class && words.say(`vocabulary.product-class.${use.class}`),
    said('batch', use.batch),
    said('amount', use.amount),
    said('route', use.route),
    use.lesion && words.say('book.product.lesion', { lesion: nameInBook(words, animal, use.lesion) }),
    use.on && words.say('book.product.on', { day: dayInWords(words, use.on) }),
    use.until && words.say('book.product.until', { day: dayInWords(words, use.until) }),
    counted('milk-days', use['milk-days']),
    counted('milk-hours', use['milk-hours']),
    counted('milk-milkings', use['milk-milkings']),
    counted('meat-days', use['meat-days']),
    said('given-by', use['given-by']),
    said('prescribed-by', use['prescribed-by']),
    use.cost === undefined
      ? undefined
      : words.say('book.product.cost', { value: use.cost.toFixed(2), currency: currency ?? '' }).trim(),
    use.note,
  );
}

/** What a picture shows. @example photoInWords(words, photo) // → 'left hind, outer claw; sole; after the trim' */
export function photoInWords(words: Words, photo: Photo): string {
  return phrase(
    photo.foot
      ? placeInWords(words, photo.foot, photo.claw)
      : photo.claw && words.say(`vocabulary.claw.${photo.claw}`),
    photo.view && words.say(`vocabulary.view.${photo.view}`),
    photo.when && words.say(`vocabulary.moment.${photo.when}`),
  );
}
