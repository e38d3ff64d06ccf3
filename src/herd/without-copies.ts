import { isLiftingVisit } from '../record/lifting.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { animalNames, nameOfFile } from '../record/same-animal.js';

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
