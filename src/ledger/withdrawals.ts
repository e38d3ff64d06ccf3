import type { CalendarDay } from '../record/calendar-day.js';
import { farmSealsInOrder, sealsInOrder } from './all-seals.js';
import { chained } from './entry-line.js';
import { fitsSeal } from './fits-seal.js';
import type { Content, LedgerEntry } from './ledger-entry.js';
import type { RecordSeal } from './record-seal.js';
import type { SealedRecord } from './sealed-records.js';
import type { FarmSeals } from './seals-of-farm.js';

/** A record whose seal is broken now: what it says, or undefined where it is gone from its file. */
export interface BrokenSeal {
  readonly sealed: SealedRecord;
  readonly now: RecordSeal | undefined;
}

/** Every record of a farm whose seal is broken. */
export function brokenSeals(seals: FarmSeals): BrokenSeal[] {
  const animals = [...seals.animals.values()];
  const differing = [...farmSealsInOrder(seals), ...animals.flatMap((one) => sealsInOrder(one))].filter(
    ({ state }) => state === 'differs' || state === 'gone',
  );
  const missing = [
    ...seals.missing,
    ...animals.flatMap((one) => one.missing.flatMap(({ sealed, inTheOpen }) => (inTheOpen ? [] : sealed))),
    ...seals.missingAnimals.flatMap(({ records }) => records),
  ];
  return [
    ...differing.flatMap((now) => (now.sealed ? [{ sealed: now.sealed, now }] : [])),
    ...missing.map((sealed) => ({ sealed, now: undefined })),
  ];
}

/**
 * Entries that take seals back in the open: of a record that is gone all of them, of one that is again as it was at an
 * earlier seal those made since. A record that was never sealed as it is now stays broken.
 *
 * Shape: `content` says who, why and, where it is known, what was taken back
 */
export function withdrawals(
  seals: FarmSeals,
  broken: readonly BrokenSeal[],
  { sealed, content }: { readonly sealed: CalendarDay; readonly content: Content },
): LedgerEntry[] {
  const byAnimal = new Map<string | undefined, number[]>();
  for (const one of broken) {
    const { animal } = one.sealed.first;
    byAnimal.set(animal, [...(byAnimal.get(animal) ?? []), ...since(one)]);
  }
  const added: LedgerEntry[] = [];
  for (const [animal, numbers] of byAnimal) {
    const withdraws = numbers.toSorted((a, b) => a - b);
    if (withdraws.length === 0) continue;
    const draft = { sealed, kind: 'withdrawn' as const, withdraws, content: { ...content } };
    added.push(
      chained(
        animal === undefined ? draft : { ...draft, animal },
        added.at(-1) ?? seals.ledger.entries.at(-1),
      ),
    );
  }
  return added;
}

function since({ sealed: { standing }, now }: BrokenSeal): number[] {
  if (!now || now.state === 'gone') return standing.map(({ number }) => number);
  const back = standing.findLastIndex(
    ({ content }) => fitsSeal(now.kind, content, now.now.content) !== 'differs',
  );
  return back < 0 ? [] : standing.slice(back + 1).map(({ number }) => number);
}
