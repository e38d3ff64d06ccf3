import { type FarmSeals, sealsOfFarm, farmSealsInOrder, sealsInOrder } from '../../ledger/seals-of-farm.js';
import { emptyLedger, holdsHead } from '../../ledger/read-ledger.js';
import { daysToSeal, firstSealed, type RecordSeal, correctionsOf } from '../../ledger/record-seal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, type Period } from '../../record/period.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import { fixedDays } from '../../reference/intervals.js';
import { given } from '../../record/given.js';
import type { ContentDifference, LedgerEntry } from '../../ledger/ledger-entry.js';

/** One record that describes a day in the period, with its seal. */
export interface SealedInPeriod {
  /** Whose it is; undefined: the farm's. */
  readonly record: CaseRecord | undefined;
  readonly seal: RecordSeal;
  readonly on: CalendarDay;
  readonly firstSealed?: CalendarDay;
  readonly days?: number;
  /** First sealed more than a week after what it describes. */
  readonly isLate: boolean;
}

/** The seals of a farm that keeps no ledger. */
export function noSeals(farm: FarmRecord): FarmSeals {
  const animals = farm.cases.map(({ slug, animal }) => ({ slug, animal }));
  return sealsOfFarm({ farm: farm.farm, animals }, emptyLedger, () => undefined);
}

/** Every record that can be sealed, with whose it is. */
function recordsWithSeals(farm: FarmRecord, seals: FarmSeals) {
  return [
    ...farmSealsInOrder(seals).map((seal) => ({ record: undefined, seal })),
    ...farm.cases.flatMap((record) => {
      const hers = seals.animals.get(record.slug);
      return hers ? sealsInOrder(hers).map((seal) => ({ record, seal })) : [];
    }),
  ];
}

/**
 * The records that describe a day in the period, by that day. Declarations describe none and are not among them.
 *
 * Source:  shared/intervals.json `written-late`
 * Checked: tests/audit/seals.test.ts
 */
export function sealedInPeriod(
  farm: FarmRecord,
  seals: FarmSeals,
  period: Period,
  today: CalendarDay,
): SealedInPeriod[] {
  return recordsWithSeals(farm, seals)
    .flatMap(({ record, seal }): SealedInPeriod[] => {
      const { on } = seal.now;
      if (on === undefined || !isInPeriod(on, period) || on > today || cannotBeSealed(seal)) return [];
      const [day, days] = [firstSealed(seal), daysToSeal(seal)];
      return [
        {
          record,
          seal,
          on,
          isLate: days !== undefined && days > fixedDays('written-late'),
          ...given({ firstSealed: day, days }),
        },
      ];
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/** A picture whose file is not there: it is missing, and listed as that. */
function cannotBeSealed({ kind, sealed, now }: RecordSeal): boolean {
  return kind === 'picture' && sealed === undefined && !('bytes' in now.content);
}

/** One correction made in the open, or records taken out in the open. */
export interface AmendmentInPeriod {
  /** Whose it is; undefined: the farm's. */
  readonly record: CaseRecord | undefined;
  readonly kind: LedgerEntry['kind'];
  /** The day the corrected record describes. */
  readonly on?: CalendarDay;
  readonly date: CalendarDay;
  readonly by?: string;
  readonly why?: string;
  /** What the record said before and says now; empty where nothing was sealed before the correction. */
  readonly changes: readonly ContentDifference[];
  /** Of a withdrawal: the entries taken back. */
  readonly taken: readonly Pick<LedgerEntry, 'kind' | 'on'>[];
}

/** The corrections and withdrawals dated in a period, by their day. */
export function amendmentsInPeriod(
  farm: FarmRecord,
  seals: FarmSeals,
  period: Period,
  today: CalendarDay,
): AmendmentInPeriod[] {
  return [...corrections(farm, seals), ...withdrawals(farm, seals)]
    .filter(({ date }) => isInPeriod(date, period) && date <= today)
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

function corrections(farm: FarmRecord, seals: FarmSeals): AmendmentInPeriod[] {
  return recordsWithSeals(farm, seals).flatMap(({ record, seal }) =>
    correctionsOf(seal).map(({ amendment, changes }) => {
      const { on } = seal.now;
      return {
        record,
        kind: seal.kind,
        ...given({ on }),
        ...amendment,
        changes,
        taken: [],
      };
    }),
  );
}

function withdrawals(farm: FarmRecord, { ledger: { entries }, animals }: FarmSeals): AmendmentInPeriod[] {
  const slugs = new Map(
    [...animals].flatMap(([slug, { name }]) => (name === undefined ? [] : [[name, slug]])),
  );
  return entries
    .filter(({ kind }) => kind === 'withdrawn')
    .map(({ kind, sealed, animal, content, withdraws = [] }) => {
      const slug = slugs.get(animal ?? '');
      const { by, why } = content;
      return {
        record: farm.cases.find((one) => one.slug === slug),
        kind,
        date: sealed,
        ...(typeof by === 'string' ? { by } : {}),
        ...(typeof why === 'string' ? { why } : {}),
        changes: [],
        taken: withdraws.flatMap((number) => entries[number - 1] ?? []),
      };
    });
}

/** Mail that named the head of the farm's ledger: somebody else's mailbox holds it, and nobody here can change it. */
export interface OutsideWitness {
  readonly day: CalendarDay;
  readonly to: readonly string[];
  /** SHA-256, 64 hexadecimal digits. */
  readonly head: string;
}

/** How many entries a witness stands for; undefined where the ledger no longer holds that head: it was cut or written anew. */
export function entriesWitnessed({ ledger }: FarmSeals, { head }: OutsideWitness): number | undefined {
  return /^[0-9a-f]{16,64}$/i.test(head) ? holdsHead(ledger, head)?.entries : undefined;
}
