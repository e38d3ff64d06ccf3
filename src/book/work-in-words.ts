import type { Animal } from '../record/animal.js';
import type { Found, Visit, BlockEvent, Photo, WrapEvent, ProductUse } from '../record/visit.js';
import type { Sign } from '../record/words.js';
import { codeOn } from '../record/code-of-lesion.js';
import { lesionInWords, dayInWords, placeInWords } from '../words/number-in-words.js';
import type { Words } from '../reference/words.js';
import type { Fact } from './page-parts.js';
import { fact } from './animal-page-data.js';

/** What was found of each lesion and mark at one visit, whole. */
export function findingsInWords(words: Words, animal: Animal, at: number): Fact[] {
  return Object.entries(animal.visits[at]?.found ?? {}).map(([name, found]) => ({
    label: nameInBook(words, animal, name, at),
    value: findingInWords(words, found),
  }));
}

/** A lesion or mark as the visits call it: its short name, then what it is. */
export function nameInBook(
  words: Words,
  animal: Animal,
  name: string,
  at = animal.visits.length - 1,
): string {
  const lesion = animal.lesions[name];
  if (lesion)
    return words.say('book.finding.named', {
      name,
      what: words.say(`vocabulary.lesion-name.${codeOn(name, lesion, animal.visits, at)}`),
    });
  const mark = animal.marks?.[name];
  if (!mark) return name;
  const kind = mark['groove-from'] ? 'groove' : 'mark';
  return words.say('book.finding.named', { name, what: words.say(`book.finding.${kind}`) });
}

function findingInWords(words: Words, found: Found): string {
  const mm = (key: string, value: number | undefined) =>
    value === undefined ? undefined : words.say(`book.finding.${key}`, { value });
  const told = (list: string, value: string | undefined) => value && words.say(`vocabulary.${list}.${value}`);
  return words.semicolons([
    found.lifted === false && words.say('book.finding.not-lifted'),
    found.lifted === true && words.say('book.finding.lifted'),
    found.code && words.say('book.finding.now-called', { lesion: lesionInWords(words, found.code) }),
    told('state', found.state),
    told('stage', found.stage),
    mm('top', found.top),
    told('top-found', found['top-found']),
    mm('wall', found.wall),
    found['wall-at'] && words.say('book.finding.wall-beside'),
    found['wall-lowered'] === true && words.say('book.finding.wall-lowered'),
    found['wall-lowered'] === false && words.say('book.finding.wall-not-lowered'),
    mm('width', found.width),
    mm('length', found.length),
    mm('depth', found.depth),
    mm('distance', found.distance),
    found.tool && words.say('book.finding.tool', { tool: words.say(`vocabulary.tool.${found.tool}`) }),
    found['wall-tool'] &&
      words.say('book.finding.wall-tool', { tool: words.say(`vocabulary.tool.${found['wall-tool']}`) }),
    ...(found.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
    goneInWords(words, found.gone),
    found.infected !== undefined && words.say(`book.finding.infected.${found.infected}`),
    found['ran-up'] !== undefined && words.say(`book.finding.ran-up.${found['ran-up']}`),
    found['opened-further'] !== undefined &&
      words.say(`book.finding.opened-further.${found['opened-further']}`),
    found.joined && words.say('book.finding.joined', { name: found.joined }),
    found.note,
  ]);
}

function goneInWords(words: Words, gone: readonly Sign[] = []): string | undefined {
  const signs = words.commas(gone.map((sign) => words.say(`vocabulary.sign.${sign}`)));
  return signs === '' ? undefined : words.say('book.finding.gone', { signs });
}

/** What was seen of whole feet at one visit. */
export function feetInWords(words: Words, visit: Visit): Fact[] {
  return Object.entries(visit.feet ?? {}).map(([foot, seen]) => ({
    label: words.say(`vocabulary.foot.${foot}`),
    value: words.semicolons([
      seen.lifted !== undefined && words.say(`book.finding.${seen.lifted ? 'lifted' : 'not-lifted'}`),
      ...(seen.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
      goneInWords(words, seen.gone),
      seen.note,
    ]),
  }));
}

/** What a few words tell of the work at one visit: trim, horn taken off, pain relief, pictures. */
export function briefWork(words: Words, animal: Animal, visit: Visit): Fact[] {
  return [
    ...fact(
      words,
      'book.log.trimmed',
      words.commas(visit.trimmed?.map((foot) => words.say(`vocabulary.foot.${foot}`))),
    ),
    ...fact(
      words,
      'book.log.cut-back',
      words.semicolons((visit['cut-back'] ?? []).map((name) => nameInBook(words, animal, name))),
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
  return words.semicolons([
    placeInWords(words, block.foot, block.claw),
    words.say(`vocabulary.event.${block.event}`),
    block.material && words.say(`vocabulary.material.${block.material}`),
    dayOfEvent(words, block.on),
    block['carrying-claw'] && words.say(`vocabulary.carrying-claw.${block['carrying-claw']}`),
    block.note,
  ]);
}

function wrapInWords(words: Words, wrap: WrapEvent): string {
  return words.semicolons([
    placeInWords(words, wrap.foot),
    words.say(`vocabulary.event.${wrap.event}`),
    dayOfEvent(words, wrap.on),
    wrap.note,
  ]);
}

/** What a picture shows. @example photoInWords(words, { file: 'photos/1.jpg', foot: 'LH', claw: 'outer', view: 'sole', when: 'after' }) // → 'left hind, outer claw; sole; after the trim' */
export function photoInWords(words: Words, photo: Photo): string {
  return words.semicolons([
    photo.foot
      ? placeInWords(words, photo.foot, photo.claw)
      : photo.claw && words.say(`vocabulary.claw.${photo.claw}`),
    photo.view && words.say(`vocabulary.view.${photo.view}`),
    photo.when && words.say(`vocabulary.moment.${photo.when}`),
  ]);
}

/** A product given or put on: what it is; how, where and when; what is withheld; whose hand and order. A line each. */
function productFact(words: Words, animal: Animal, use: ProductUse, currency: string | undefined): Fact {
  const said = (key: string, value: string | number | undefined) =>
    value === undefined ? undefined : words.say(`book.product.${key}`, { value });
  const counted = (key: string, count: number | undefined) =>
    count === undefined ? undefined : words.say(`book.product.${key}`, { count });
  const lines = [
    words.semicolons([
      said('amount', use.amount),
      said('route', use.route),
      use.lesion && words.say('book.product.lesion', { lesion: nameInBook(words, animal, use.lesion) }),
      ...daysGiven(words, use),
    ]),
    words.semicolons([
      counted('milk-days', use['milk-days']),
      counted('milk-hours', use['milk-hours']),
      counted('milk-milkings', use['milk-milkings']),
      counted('milk-days-after-calving', use['milk-days-after-calving']),
      counted('meat-days', use['meat-days']),
    ]),
    words.semicolons([
      said('given-by', use['given-by']),
      said('prescribed-by', use['prescribed-by']),
      use.cost === undefined
        ? undefined
        : words
            .say('book.product.cost', { value: words.number(use.cost.toFixed(2)), currency: currency ?? '' })
            .trim(),
    ]),
    use.note ?? '',
  ].filter((line) => line !== '');
  return {
    label: words.say('book.log.product'),
    value: words.semicolons([
      use.product,
      said('active', use.active),
      use.class && words.say(`vocabulary.product-class.${use.class}`),
      said('batch', use.batch),
    ]),
    ...(lines.length > 0 ? { lines } : {}),
  };
}

/** The first and the last day, or the one day that is both. */
function daysGiven(words: Words, { on, until }: ProductUse): (string | undefined)[] {
  const day = (key: string, of: string | undefined) =>
    of && words.say(`book.product.${key}`, { day: dayInWords(words, of) });
  return on !== undefined && on === until ? [day('one-day', on)] : [day('on', on), day('until', until)];
}
