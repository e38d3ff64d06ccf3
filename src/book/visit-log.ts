import { type Correction, correctionsInBook, daysToSeal, type RecordSeal } from '../ledger/record-seal.js';
import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import type { Animal } from '../record/animal.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { given } from '../record/given.js';
import { type KeyPlace, placeOf } from '../record/key.js';
import { type Visit, visit as visitSchema } from '../record/visit.js';
import type { GaitScale } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { aboutInWords, answerInWords } from '../words/compose-due.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, saidAt, told } from '../reference/words.js';
import type { Fact } from './page-parts.js';
import {
  feetInWords,
  findingsInWords,
  fixtureInWords,
  nameInBook,
  phraseOf,
  productInWords,
  valueOf,
} from './work-in-words.js';
import { correctionInWords } from './seals/corrections-table.js';

/** What the log needs of the farm: the scale in force on a day, and the money of its prices. */
export interface LogSetting {
  readonly gaitScaleOn: (day: string) => GaitScale | undefined;
  readonly conditionScale: string | undefined;
  readonly currency: string | undefined;
  /** Each visit's seal, in their order; without them nothing is said of when it was sealed. */
  readonly seals?: readonly RecordSeal[] | undefined;
}

export function logSetting(
  { business }: Practice,
  { farm }: FarmRecord,
  seals: AnimalSeals | undefined,
): LogSetting {
  return {
    gaitScaleOn: (day) => gaitScaleOn(farm, day),
    conditionScale: farm['condition-scale'],
    currency: business.prices?.currency,
    seals: seals?.visits,
  };
}

/** Every visit with everything that was recorded at it, oldest first. */
export function composeVisitLog(words: Words, id: string, animal: Animal, setting: LogSetting) {
  return {
    id: `${id}-visits`,
    heading: words.say('book.log.heading'),
    caption: words.say('book.log.caption', { animal: animal.animal }),
    heads: { found: words.say('book.log.found'), done: words.say('book.log.done') },
    nothing: words.say('book.log.nothing'),
    visits: animal.visits.map((visit, at) => {
      const telling = { words, animal, visit, at, setting };
      return {
        day: dayInWords(words, visit.date),
        about: words.semicolons([aboutVisit(words, visit), lateSeal(words, setting.seals?.[at])]),
        ...given({
          found: entries(telling, 'found', 'found+'),
          done: entries(telling, 'done', 'done+'),
        }),
      };
    }),
  };
}

/** One visit to be described. */
export interface Telling {
  readonly words: Words;
  readonly animal: Animal;
  readonly visit: Visit;
  readonly at: number;
  readonly setting: LogSetting;
  /** Keys of a finding that are said elsewhere on the page. */
  readonly leave?: ReadonlySet<string>;
}

type LogPlace = NonNullable<KeyPlace['log']>;

/** Half of what a visit recorded: a few words each, that run on in one line, then each on lines of its own; undefined for nothing. */
function entries(telling: Telling, few: LogPlace, lines: LogPlace) {
  const [brief, whole] = [few, lines].map((log) => visitFacts(telling, loggedAs(log))) as [Fact[], Fact[]];
  return brief.length + whole.length === 0 ? undefined : { brief, whole };
}

/** The keys of a visit that are at one place of the log, in the order of the format. */
export function loggedAs(log: LogPlace): readonly (keyof Visit)[] {
  const all = Object.keys(visitSchema.shape) as (keyof Visit)[];
  const keys = logged.get(log) ?? all.filter((key) => placeOf(visitSchema, key).log === log);
  logged.set(log, keys);
  return keys;
}

const logged = new Map<LogPlace, readonly (keyof Visit)[]>();

/** What a visit says under these keys, each in its own words or, without any, by what it holds. */
export function visitFacts(telling: Telling, keys: readonly (keyof Visit)[]): Fact[] {
  const { words, visit } = telling;
  return keys.flatMap((key) => {
    if (visit[key] === undefined && key !== 'gait' && key !== 'amended') return [];
    const value = inOwnWords[key]?.(telling) ?? valueOf(words, `visits.${key}`, visit[key], '; ');
    if (typeof value !== 'string') return value;
    return value === '' ? [] : [{ label: labelInLog(words, key), value }];
  });
}

function labelInLog(words: Words, key: keyof Visit): string {
  return words.say(saidAt(words, 'log', `visits.${key}`) ?? `key.${key}.log`);
}

const inOwnWords: {
  readonly [K in keyof Visit]?: (telling: Telling) => string | readonly Fact[] | undefined;
} = {
  gait: ({ words, visit, setting }) => gait(words, visit, setting),
  condition: ({ words, visit, setting }) =>
    onScale(words, visit.condition!, 'condition-scale', setting.conditionScale),
  feet: ({ words, visit }) => feetInWords(words, visit.feet),
  found: ({ words, animal, at, leave }) => findingsInWords(words, animal, at, leave),
  trimmed: ({ words, visit }) => valueOf(words, 'visits.trimmed', visit.trimmed, ', '),
  'cut-back': ({ words, animal, visit }) =>
    visit['cut-back']!.map((name) => nameInBook(words, animal, name)).join('; '),
  photos: ({ words, visit: { photos = [] } }) =>
    photos.length === 0 ? '' : words.say('book.log.photo-count', { count: photos.length }),
  blocks: ({ words, visit }) =>
    visit.blocks!.map((one) => ({ label: labelInLog(words, 'blocks'), value: fixtureInWords(words, one) })),
  wraps: ({ words, visit }) =>
    visit.wraps!.map((one) => ({ label: labelInLog(words, 'wraps'), value: fixtureInWords(words, one) })),
  products: ({ words, animal, visit, setting }) =>
    visit.products!.map((use) => ({
      label: labelInLog(words, 'products'),
      ...productInWords(words, animal, use, setting.currency),
    })),
  vet: ({ words, visit: { vet } }) =>
    words.semicolons([dayInWords(words, vet!.asked), aboutInWords(words, vet!.about), told(vet!.why)]),
  'vet-answer': ({ words, visit: { 'vet-answer': answer } }) =>
    words.semicolons([
      words.say('book.log.vet-answer-to', { day: dayInWords(words, answer!.to) }),
      told(answer!.by),
      told(answer!.reply),
      answerInWords(words, answer!),
    ]),
  'ask-farm': ({ words, visit }) =>
    visit['ask-farm']!.map(({ what, by }) => task(words, 'by', what, by)).join('; '),
  'farm-did': ({ words, visit }) =>
    visit['farm-did']!.map(({ what, on }) => task(words, 'on', what, on)).join('; '),
  amended: ({ words, visit, at, setting }) =>
    corrections(visit, setting.seals?.[at]).map((one) => ({
      label: labelInLog(words, 'amended'),
      value: correctionInWords(words, one),
    })),
};

function task(words: Words, when: 'by' | 'on', what: string, day: string): string {
  return words.say(`book.log.task-${when}`, {
    task: words.say(`vocabulary.task.${what}`),
    day: dayInWords(words, day),
  });
}

function corrections(visit: Visit, seal: RecordSeal | undefined): Correction[] {
  if (seal) return correctionsInBook(seal);
  return (visit.amended ?? []).map((amendment) => ({ amendment, changes: [], isSameDay: false }));
}

/** Of a visit first sealed long after its day. */
export function lateSeal(words: Words, seal: RecordSeal | undefined): string | undefined {
  const count = seal && daysToSeal(seal);
  return count === undefined || count <= fixedDays('written-late')
    ? undefined
    : words.say('seal.late-visit', { count });
}

/** What kind of visit, whose, and how it was done. */
function aboutVisit(words: Words, visit: Visit): string {
  return words.semicolons([
    words.say('book.log.kind-by', {
      kind: words.say(`vocabulary.visit-kind.${visit.kind}`),
      name: told(visit.by),
    }),
    ...loggedAs('about').map((key) => phraseOf(words, `visits.${key}`, visit[key])),
  ]);
}

function gait(words: Words, visit: Visit, setting: LogSetting): string | undefined {
  return words.semicolons([
    visit.gait !== undefined && onScale(words, visit.gait, 'gait-scale', setting.gaitScaleOn(visit.date)),
    phraseOf(words, 'visits.on-block', visit['on-block']),
    phraseOf(words, 'visits.gait-by', visit['gait-by']),
  ]);
}

function onScale(words: Words, value: number, list: string, scale: string | undefined): string {
  return words.say('book.log.on-scale', {
    value,
    scale: scale ? words.say(`vocabulary.${list}.${scale}`) : words.say('book.log.no-scale'),
  });
}
