import type { RecordPath } from '../problem/problem.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { Visit } from '../record/visit.js';
import type { Content, LedgerKind } from './ledger-entry.js';
import { given } from '../record/given.js';

/** A record as it is now, ready to be held against its seal or sealed. */
export interface Sealable {
  readonly kind: Exclude<LedgerKind, 'withdrawn'>;
  /** Its place in its file. */
  readonly path: RecordPath;
  readonly on?: CalendarDay;
  readonly content: Content;
}

/** A visit with its pictures apart: a picture may be put under a visit later. */
export interface SealableVisit extends Sealable {
  readonly pictures: readonly SealablePicture[];
  /** Names of the lesions and marks it tells of. */
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

export interface SealableAnimal {
  readonly identity: Sealable;
  readonly lesions: readonly Sealable[];
  readonly marks: readonly Sealable[];
  readonly episodes: readonly Sealable[];
  readonly visits: readonly SealableVisit[];
}

/** An animal's records as they are sealed. What may be said anew at any time, how to handle her and when she is due to calve, is not; nor is the name of a farm she came from. */
export function sealableAnimal(
  animal: Animal,
  picture: (file: string) => PictureBytes | undefined,
): SealableAnimal {
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
  const named = (
    kind: 'lesion' | 'mark',
    list: Animal['lesions'] | NonNullable<Animal['marks']>,
  ): Sealable[] =>
    Object.entries(list)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, one]) => ({ kind, path: [`${kind}s`, name], content: { name, ...one } }));
  return {
    identity: {
      kind: 'identity',
      path: ['animal'],
      content: { ...identity, ...given({ earlier: numbers }) },
    },
    lesions: named('lesion', lesions),
    marks: named('mark', marks),
    episodes: episodes.map((one, at) => ({
      kind: 'episode',
      path: ['episodes', at],
      ...given({ on: one['lame-since'] }),
      content: one,
    })),
    visits: visits.map((visit, at) => sealableVisit(visit, at, picture)),
  };
}

function sealableVisit(
  { photos = [], ...visit }: Visit,
  at: number,
  picture: (file: string) => PictureBytes | undefined,
): SealableVisit {
  const { found = {}, products = [] } = visit;
  const tellsOf = [
    ...Object.keys(found),
    ...(visit['cut-back'] ?? []),
    ...products.flatMap(({ lesion }) => lesion ?? []),
  ];
  return {
    kind: 'visit',
    path: ['visits', at],
    on: visit.date,
    content: visit,
    tellsOf: [...new Set(tellsOf)].toSorted(),
    pictures: photos.map((photo, place) => {
      const there = picture(photo.file);
      return {
        kind: 'picture',
        path: ['visits', at, 'photos', place],
        on: visit.date,
        content: { ...photo, ...there },
        isThere: there !== undefined,
      };
    }),
  };
}

export interface SealableFarm {
  readonly scales: Sealable | undefined;
  readonly gaitRounds: readonly Sealable[];
  readonly footbath: readonly Sealable[];
  readonly plan: Sealable | undefined;
}

/** What is sealed of `farm.md`. Scales are sealed as the list they may grow into. */
export function sealableFarm(farm: Farm): SealableFarm {
  const { 'gait-scale': gait, 'condition-scale': condition, plan, amended } = farm;
  const scales = {
    ...(gait === undefined ? {} : { 'gait-scale': typeof gait === 'string' ? [{ scale: gait }] : gait }),
    ...given({ 'condition-scale': condition, amended }),
  };
  return {
    scales:
      gait === undefined && condition === undefined
        ? undefined
        : { kind: 'scales', path: [gait === undefined ? 'condition-scale' : 'gait-scale'], content: scales },
    gaitRounds: (farm['gait-rounds'] ?? []).map((one, at) => ({
      kind: 'gait-round',
      path: ['gait-rounds', at],
      on: one.date,
      content: one,
    })),
    footbath: (farm.footbath ?? []).map((one, at) => ({
      kind: 'footbath',
      path: ['footbath', at],
      ...given({ on: one.from }),
      content: one,
    })),
    plan: plan && { kind: 'plan', path: ['plan'], on: plan.date, content: plan },
  };
}
