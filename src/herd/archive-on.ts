import { isLiftingVisit } from '../record/lifting.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import { animalNames, nameOfFile } from '../record/same-animal.js';
import { archiveDay, type ArchivePriors, priorsFor } from '../growth/learning/priors-for.js';
import { type TrackRecord, trackRecord } from '../growth/track-record/track-record.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { herdNumbers } from '../reference/numbers.js';
import { type CaseFigures, caseFigures, withTimes } from './farm-figures.js';

/**
 * The farms without files that only repeat what another file of the same animal tells.
 *
 * A cow that moves often takes her file along: its visits then stand on both farms, and all that is counted over
 * both would count them twice. A file is left out where every visit that lifted feet or scored her walk stands, the same, in another file of hers.
 *
 * Shape:   farms in any order → the same files; of two alike the first by name stays
 * Checked: tests/herd/same-animal.test.ts
 */
export function withoutCopies(farms: readonly FarmRecord[]): FarmRecord[] {
  const nameOf = animalNames(farms);
  const filesOf = new Map<string, { readonly name: string; readonly record: CaseRecord }[]>();
  for (const farm of farms) {
    for (const record of farm.cases) {
      const file = { farm: farm.slug, slug: record.slug };
      const files = filesOf.get(nameOf(file)) ?? [];
      files.push({ name: nameOfFile(file), record });
      filesOf.set(nameOf(file), files);
    }
  }
  const copies = new Set<CaseRecord>();
  for (const files of filesOf.values()) {
    if (files.length < 2) continue;
    const told = files
      .map(({ name, record }) => ({ name, record, visits: visitsThatTell(record) }))
      .sort((a, b) => b.visits.size - a.visits.size || (a.name < b.name ? -1 : 1));
    told.forEach(({ record, visits }, at) => {
      if (visits.size === 0) return;
      const kept = told.slice(0, at).filter((one) => !copies.has(one.record));
      if (kept.some((one) => [...visits].every((visit) => one.visits.has(visit)))) copies.add(record);
    });
  }
  if (copies.size === 0) return [...farms];
  return farms.map((farm) => ({ ...farm, cases: farm.cases.filter((record) => !copies.has(record)) }));
}

function visitsThatTell({ animal }: CaseRecord): ReadonlySet<string> {
  return new Set(
    animal.visits
      .filter((visit) => isLiftingVisit(visit) || visit.gait !== undefined)
      .map(({ date, by, gait, found }) => JSON.stringify([date, by, gait, found])),
  );
}

/** All that a farm's papers take from other farms, as of one day. */
export interface Archive {
  /** What to hold of each cow beforehand. */
  readonly priors: ArchivePriors;
  /** How good the dates have been. */
  readonly record: TrackRecord;
  /** How long cases took and what came back, no case named; absent with so few farms that another could be told from it. */
  readonly figures?: CaseFigures | undefined;
  /** The day up to which visits count in all of it. */
  readonly upTo: CalendarDay;
}

/**
 * What all farms on file together teach on a day: as their records stood at the end of the last quarter, so that
 * a visit on one farm changes no other farm's papers until the quarter ends. Each part is worked out once, when first asked for.
 *
 * Valid:   the practice whole, whichever farm is built; an animal that moved counts once
 * Checked: tests/herd/other-farms.test.ts, tests/growth/learning.test.ts
 */
export function archiveOn(practice: Pick<Practice, 'farms'>, today: CalendarDay): Archive {
  const upTo = archiveDay(today);
  const farms = practice.farms.map((farm) => asOf(farm, upTo));
  const priors = once(() => priorsFor({ farms }, today));
  const record = once(() => trackRecord({ farms }, upTo));
  const figures = once(() =>
    farms.length < herdNumbers.figures.leastFarms.value
      ? undefined
      : withTimes(caseFigures(withoutCopies(farms), upTo), (times) => ({ ...times, cases: [] })),
  );
  return {
    get priors() {
      return priors();
    },
    get record() {
      return record();
    },
    get figures() {
      return figures();
    },
    upTo,
  };
}

/** A farm with the visits up to a day. A file begun later stays, empty: she may be the cow of an older file. */
function asOf(farm: FarmRecord, day: CalendarDay): FarmRecord {
  return { ...farm, cases: farm.cases.map((record) => caseAsOf(record, day)) };
}

function caseAsOf(record: CaseRecord, day: CalendarDay): CaseRecord {
  const { animal } = record;
  const visits = animal.visits.filter(({ date }) => date <= day);
  return visits.length === animal.visits.length ? record : { ...record, animal: { ...animal, visits } };
}

function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}
