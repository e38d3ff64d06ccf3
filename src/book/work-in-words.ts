import { type Animal, animal as animalSchema } from '../record/animal.js';
import {
  found as foundSchema,
  footFinding,
  type Found,
  type FootFinding,
  type Visit,
  type BlockEvent,
  type Photo,
  type WrapEvent,
  type ProductUse,
} from '../record/visit.js';
import type { Claw, LesionCode } from '../record/words.js';
import { placeOf, takes } from '../record/key.js';
import { calendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import { dayInWords, lesionInWords, placeInWords } from '../words/day-and-place.js';
import { type Words, saidAt, told } from '../reference/words.js';
import type { Fact } from './page-parts.js';

/** What was found of each lesion and mark at one visit, whole. */
export function findingsInWords(
  words: Words,
  animal: Animal,
  at: number,
  /** Keys that are said elsewhere on the page. */
  leave: ReadonlySet<string> = new Set(),
): Fact[] {
  return Object.entries(animal.visits[at]?.found ?? {}).map(([name, found]) => ({
    label: nameInBook(words, animal, name, at),
    value: words.semicolons(
      toldOrder
        .filter((key) => !leave.has(key))
        .map((key) => phraseOf(words, `visits.found.${key}`, found[key])),
    ),
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

/** Whether it was looked at, and its new name, come first; how the wall was read is with how the rest was. */
const toldOrder = ((): readonly (keyof Found)[] => {
  const first = ['lifted', 'code'] as const;
  const keys = (Object.keys(foundSchema.shape) as (keyof Found)[]).filter(
    (key) => !['wall-tool', ...first].includes(key),
  );
  return [...first, ...keys.toSpliced(keys.indexOf('tool') + 1, 0, 'wall-tool')];
})();

/** What was seen of whole feet at one visit. */
export function feetInWords(words: Words, feet: Visit['feet'] = {}): Fact[] {
  return Object.entries(feet).map(([foot, seen]) => ({
    label: words.say(`vocabulary.foot.${foot}`),
    value: words.semicolons(
      Object.keys(footFinding.shape).map((key) =>
        phraseOf(words, `visits.feet.${key}`, seen[key as keyof FootFinding]),
      ),
    ),
  }));
}

/**
 * What is recorded under a key, to be listed in a row with others: in the sentence the words have for it, else as it is.
 * `way` is the way to the key in an animal's record, without names.
 */
export function phraseOf(words: Words, way: string, value: unknown): string | undefined {
  if (value === undefined) return undefined;
  const own = saidAt(words, 'log', way);
  if (own === undefined) return valueOf(words, way, value, '; ');
  if (typeof value === 'boolean') return words.say(`${own}.${value}`);
  const said = valueOf(words, way, value, ', ');
  return said === '' ? undefined : words.say(own, { value: said });
}

/** A value by its list of words, as a day, with its unit; several with `between` between them. */
export function valueOf(words: Words, way: string, value: unknown, between: string): string {
  const { told: lists = '', unit } = placeOf(animalSchema, way);
  const one = (single: string | number | boolean): string => {
    if (lists === 'lesion') return lesionInWords(words, single as LesionCode);
    const list = lists.split(' ').find((name) => words.has(`vocabulary.${name}.${single}`));
    if (list !== undefined) return words.say(`vocabulary.${list}.${single}`);
    if (typeof single === 'boolean') return words.say(`form.word.${single ? 'yes' : 'no'}`);
    if (takes(animalSchema, way, calendarDay)) return dayInWords(words, String(single));
    return words.has(`book.unit.${unit}`)
      ? words.say(`book.unit.${unit}`, { value: single })
      : typeof single === 'number'
        ? words.number(single)
        : told(single);
  };
  return [value]
    .flat()
    .map((single) => one(single as string))
    .join(between);
}

/** What was done with a block or a wrap. */
export function fixtureInWords(words: Words, fixture: BlockEvent | WrapEvent): string {
  const { foot, claw, event, material, on, 'carrying-claw': carrying, note }: Fixture = fixture;
  return words.semicolons([
    placeInWords(words, foot, claw),
    words.say(`vocabulary.event.${event}`),
    material && words.say(`vocabulary.material.${material}`),
    on === 'unknown'
      ? words.say('book.log.day-unknown')
      : on && words.say('book.log.on-day', { day: dayInWords(words, on) }),
    carrying && words.say(`vocabulary.carrying-claw.${carrying}`),
    told(note),
  ]);
}

type Fixture = Omit<BlockEvent, 'event' | 'claw'> &
  Pick<BlockEvent | WrapEvent, 'event'> & { readonly claw?: Claw };

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
export function productInWords(
  words: Words,
  animal: Animal,
  use: ProductUse,
  currency: string | undefined,
): Omit<Fact, 'label'> {
  const said = (key: 'amount' | 'route' | 'given-by' | 'prescribed-by' | 'active' | 'batch') => {
    const value = use[key];
    return value === undefined ? undefined : words.say(`book.product.${key}`, { value: told(value) });
  };
  const periods = [
    'milk-days',
    'milk-hours',
    'milk-milkings',
    'milk-days-after-calving',
    'meat-days',
  ] as const;
  const cost =
    use.cost === undefined
      ? undefined
      : words.say('book.product.cost', {
          value: words.number(use.cost.toFixed(2)),
          currency: currency ?? '',
        });
  const lines = [
    words.semicolons([
      said('amount'),
      said('route'),
      use.lesion && words.say('book.product.lesion', { lesion: nameInBook(words, animal, use.lesion) }),
      ...daysGiven(words, use),
    ]),
    words.semicolons(
      periods.map((key) => {
        const count = use[key];
        return count === undefined ? undefined : words.say(`book.product.${key}`, { count });
      }),
    ),
    words.semicolons([said('given-by'), said('prescribed-by'), cost?.trim()]),
    told(use.note ?? ''),
  ].filter((line) => line !== '');
  return {
    value: words.semicolons([
      told(use.product),
      said('active'),
      use.class && words.say(`vocabulary.product-class.${use.class}`),
      said('batch'),
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
