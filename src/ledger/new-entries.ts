import type { CalendarDay } from '../record/calendar-day.js';
import { allSeals, farmSealsInOrder, type FarmSeals, isToSeal } from './seals-of-farm.js';
import { chained, type Draft, type LedgerEntry, type Content } from './ledger-entry.js';
import type { RecordSeal } from './record-seal.js';
import type { AnimalSeals, VisitSeal } from './seals-of-animal.js';
import { given } from '../record/given.js';
import { fitsSeal } from './fits-seal.js';
import type { SealedRecord } from './sealed-records.js';

/** Which records are to be sealed: all of the farm, or those of `farm.md` and of animals named by their files. */
interface ToSeal {
  readonly sealed: CalendarDay;
  readonly farmFile: boolean;
  /** Undefined: every animal. */
  readonly animals: ReadonlySet<string> | undefined;
}

/**
 * The entries to put behind a chain so that what is not yet sealed is. A record that differs is left alone: its seal
 * stays broken until it is put right. A picture that is not there is sealed once it is.
 *
 * The scales are sealed with the first visit, since its gait is based on them.
 *
 * Shape:   a farm's seals with pictures' bytes read → new entries in order; none where nothing is new
 * Checked: tests/ledger/any-change.test.ts
 */
export function newEntries(seals: FarmSeals, { sealed, farmFile, animals }: ToSeal): LedgerEntry[] {
  const chain = growingChain(seals.ledger.entries.at(-1), sealed);
  const wanted = [...seals.animals].filter(([slug]) => animals?.has(slug) ?? true);
  const visited = wanted.some(([, { visits }]) => visits.some(isToSeal));
  const scales = seals.scales && (farmFile || visited) ? chain.seal(seals.scales) : undefined;
  const names = namesFor(seals);
  for (const [file, one] of wanted) sealAnimal(chain, one, { file, animal: names(file, one) }, scales?.last);
  if (farmFile) for (const one of farmSealsInOrder(seals)) if (one !== seals.scales) chain.seal(one);
  return chain.added;
}

/** The numbers of the entry a record has and of the one that first sealed it. */
interface Sealed {
  readonly last: number;
  readonly first: number;
}

type GrowingChain = ReturnType<typeof growingChain>;

/** A chain that entries of one day are put behind; `seal` seals a record where it is not. */
function growingChain(end: LedgerEntry | undefined, sealed: CalendarDay) {
  const added: LedgerEntry[] = [];
  const add = (draft: Omit<Draft, 'sealed'>): LedgerEntry => {
    const entry = chained({ sealed, ...draft }, added.at(-1) ?? end);
    added.push(entry);
    return entry;
  };
  const seal = (one: RecordSeal, more: Partial<Draft> = {}): Sealed | undefined => {
    const { last, first } = one.sealed ?? {};
    if (!isToSeal(one)) return last && first && { last: last.number, first: first.number };
    const { kind, now } = one;
    const { number } = add({
      kind,
      ...given({ on: now.on, of: first?.number }),
      content: now.content,
      ...more,
    });
    return { last: number, first: first?.number ?? number };
  };
  return { added, add, seal };
}

function sealAnimal(
  { add, seal }: GrowingChain,
  one: AnimalSeals,
  { file, animal }: { readonly file: string; readonly animal: string },
  scales: number | undefined,
): void {
  const identity = seal(one.identity, { animal, file });
  const declared = new Map(
    [...one.lesions, ...one.marks].map((each) => [each.now.content['name'], seal(each, { animal })?.last]),
  );
  for (const episode of one.episodes) seal(episode, { animal });
  for (const visit of one.visits) {
    const names = [scales, identity?.last, ...visit.now.tellsOf.map((name) => declared.get(name))]
      .filter((number) => number !== undefined)
      .toSorted((a, b) => a - b);
    const taken = takenOut(visit, one);
    const entry = seal(visit, { animal, names });
    if (entry) for (const picture of visit.pictures) seal(picture, { animal, visit: entry.first });
    if (taken.length > 0) add({ kind: 'withdrawn', animal, withdraws: taken, content: whyOf(visit) });
  }
}

/** Pictures a correction of their visit took out. */
function takenOut({ sealed, state }: VisitSeal, { missing }: AnimalSeals): number[] {
  if (state !== 'amended') return [];
  return missing.flatMap(({ sealed: { first, standing }, inTheOpen }) =>
    inTheOpen && first.visit === sealed?.first.number ? standing.map(({ number }) => number) : [],
  );
}

function whyOf({ now }: VisitSeal): Draft['content'] {
  const amended = now.content['amended'] as readonly { readonly by: string; readonly why: string }[];
  const { by, why } = amended.at(-1)!;
  return { by, why };
}

/** The chain's name for each animal: the one she has, else her file's, distinguished where another had it. */
function namesFor({ known }: FarmSeals): (slug: string, one: AnimalSeals) => string {
  const taken = new Set(known.flatMap(({ first }) => first.animal ?? []));
  return (slug, { name }) => {
    if (name !== undefined) return name;
    let free = slug;
    for (let n = 2; taken.has(free); n += 1) free = `${slug}~${n}`;
    taken.add(free);
    return free;
  };
}

/** A record whose seal is broken now: what it says, or undefined where it is gone from its file. */
export interface BrokenSeal {
  readonly sealed: SealedRecord;
  readonly now: RecordSeal | undefined;
}

/** Every record of a farm whose seal is broken. */
export function brokenSeals(seals: FarmSeals): BrokenSeal[] {
  const missing = [
    ...seals.missing,
    ...[...seals.animals.values()].flatMap((one) =>
      one.missing.flatMap(({ sealed, inTheOpen }) => (inTheOpen ? [] : sealed)),
    ),
    ...seals.missingAnimals.flatMap(({ records }) => records),
  ];
  return [
    ...allSeals(seals).flatMap((now) =>
      now.sealed && (now.state === 'differs' || now.state === 'gone') ? [{ sealed: now.sealed, now }] : [],
    ),
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
  const chain = growingChain(seals.ledger.entries.at(-1), sealed);
  for (const [animal, numbers] of byAnimal)
    if (numbers.length > 0)
      chain.add({
        kind: 'withdrawn',
        ...given({ animal }),
        withdraws: numbers.toSorted((a, b) => a - b),
        content: { ...content },
      });
  return chain.added;
}

function since({ sealed: { standing }, now }: BrokenSeal): number[] {
  if (!now || now.state === 'gone') return standing.map(({ number }) => number);
  const back = standing.findLastIndex(
    ({ content }) => fitsSeal(now.kind, content, now.now.content) !== 'differs',
  );
  return back < 0 ? [] : standing.slice(back + 1).map(({ number }) => number);
}
