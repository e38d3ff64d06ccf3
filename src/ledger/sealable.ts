import type { RecordPath } from '../problem/problem.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { Visit } from '../record/visit.js';
import type { Content, LedgerKind } from './ledger-entry.js';
import { given } from '../record/given.js';

/** A record as it is now, ready to be checked against its seal or sealed. */
export interface Sealable {
  readonly kind: Exclude<LedgerKind, 'withdrawn'>;
  /** Its place in its file. */
  readonly path: RecordPath;
  readonly on?: CalendarDay;
  readonly content: Content;
}

function sealable(kind: Sealable['kind'], path: RecordPath, content: Content, on?: CalendarDay): Sealable {
  return { kind, path, ...given({ on }), content };
}

/** A visit with its pictures apart: a picture may be put under a visit later. */
export interface SealableVisit extends Sealable {
  readonly pictures: readonly SealablePicture[];
  /** Names of the lesions and marks it describes. */
  readonly tellsOf: readonly string[];
}

export interface SealablePicture extends Sealable {
  /** Its content then holds `bytes` and, where they were read, `sha512`. */
  readonly isThere: boolean;
}

/** A picture's file: its size, and the SHA-512 of its bytes where they were read. */
export interface PictureBytes {
  readonly bytes: number;
  readonly sha512?: string;
}

/** A picture of an animal's file by the name in the record, seen from the farm's folder; undefined where none is there. */
export type PictureLookup = (file: string, animal: string) => PictureBytes | undefined;

export type SealableAnimal = ReturnType<typeof sealableAnimal>;

/** An animal's records as they are sealed. What may be said anew at any time, how to handle her and when she is due to calve, is not; nor is the name of a farm she came from. */
export function sealableAnimal(animal: Animal, picture: (file: string) => PictureBytes | undefined) {
  const {
    casefile: _,
    lesions,
    marks = {},
    episodes = [],
    visits,
    handling: __,
    'due-to-calve': ___,
    earlier,
    ...identity
  } = animal;
  // A farm's ledger holds nothing of another farm, not even its name.
  const numbers = earlier?.map(({ farm: ____, ...one }) => one);
  const named = (kind: 'lesion' | 'mark', list: Readonly<Record<string, Content>>): Sealable[] =>
    Object.entries(list)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, one]) => sealable(kind, [`${kind}s`, name], { name, ...one }));
  return {
    identity: sealable('identity', ['animal'], { ...identity, ...given({ earlier: numbers }) }),
    lesions: named('lesion', lesions),
    marks: named('mark', marks),
    episodes: episodes.map((one, at) => sealable('episode', ['episodes', at], one, one['lame-since'])),
    visits: visits.map((visit, at) => sealableVisit(visit, at, picture)),
  };
}

function sealableVisit(
  { photos = [], ...visit }: Visit,
  at: number,
  picture: (file: string) => PictureBytes | undefined,
): SealableVisit {
  const { found = {}, products = [], 'cut-back': cut = [], date } = visit;
  const tellsOf = [...Object.keys(found), ...cut, ...products.flatMap(({ lesion }) => lesion ?? [])];
  return {
    ...sealable('visit', ['visits', at], visit, date),
    tellsOf: [...new Set(tellsOf)].toSorted(),
    pictures: photos.map((photo, place) => {
      const there = picture(photo.file);
      const path = ['visits', at, 'photos', place];
      return {
        ...sealable('picture', path, { ...photo, ...there }, date),
        isThere: there !== undefined,
      };
    }),
  };
}

/** What is sealed of `farm.md`. Scales are sealed as the list they may grow into. */
export function sealableFarm(farm: Farm) {
  const { 'gait-scale': gait, 'condition-scale': condition, plan, amended } = farm;
  const scales = given({
    'gait-scale': typeof gait === 'string' ? [{ scale: gait }] : gait,
    'condition-scale': condition,
    amended,
  });
  const { 'gait-rounds': rounds = [], footbath = [] } = farm;
  return {
    scales:
      (gait ?? condition) === undefined
        ? undefined
        : sealable('scales', [gait === undefined ? 'condition-scale' : 'gait-scale'], scales),
    gaitRounds: rounds.map((one, at) => sealable('gait-round', ['gait-rounds', at], one, one.date)),
    footbath: footbath.map((one, at) => sealable('footbath', ['footbath', at], one, one.from)),
    plan: plan && sealable('plan', ['plan'], plan, plan.date),
  };
}
