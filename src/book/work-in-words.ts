import type { Animal } from '../record/animal.js';
import type { BlockEvent, Photo, Visit, WrapEvent } from '../record/visit.js';
import { dayInWords } from '../words/day-in-words.js';
import { placeInWords } from '../words/lesion-in-words.js';
import type { Words } from '../words/words.js';
import type { Fact } from './page-parts.js';
import { fact, phrase } from './fact.js';
import { nameInBook } from './finding-in-words.js';
import { productFact } from './product-in-words.js';

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
