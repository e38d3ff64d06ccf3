import type { Animal } from '../record/animal.js';
import type { BlockEvent, Photo, Visit, WrapEvent, ProductUse } from '../record/visit.js';
import { dayInWords, placeInWords } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { Fact } from './page-parts.js';
import { fact, phrase } from './animal-page-data.js';
import { nameInBook } from './finding-in-words.js';

/** What a few words tell of the work at one visit: trim, horn taken off, pain relief, pictures. */
export function briefWork(words: Words, animal: Animal, visit: Visit): Fact[] {
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

/** What needs more words: blocks, wraps, products. */
export function wholeWork(words: Words, animal: Animal, visit: Visit, currency: string | undefined): Fact[] {
  const label = (key: string) => words.say(`book.log.${key}`);
  return [
    ...(visit.blocks ?? []).map((block) => ({ label: label('block'), value: blockInWords(words, block) })),
    ...(visit.wraps ?? []).map((wrap) => ({ label: label('wrap'), value: wrapInWords(words, wrap) })),
    ...(visit.products ?? []).map((use) => productFact(words, animal, use, currency)),
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

/** What a picture shows. @example photoInWords(words, { file: 'photos/1.jpg', foot: 'LH', claw: 'outer', view: 'sole', when: 'after' }) // → 'left hind, outer claw; sole; after the trim' */
export function photoInWords(words: Words, photo: Photo): string {
  return phrase(
    photo.foot
      ? placeInWords(words, photo.foot, photo.claw)
      : photo.claw && words.say(`vocabulary.claw.${photo.claw}`),
    photo.view && words.say(`vocabulary.view.${photo.view}`),
    photo.when && words.say(`vocabulary.moment.${photo.when}`),
  );
}

/** A product given or put on: what it is; how, where and when; what is withheld; whose hand and order. A line each. */
function productFact(words: Words, animal: Animal, use: ProductUse, currency: string | undefined): Fact {
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
