import type { CalendarDay } from '../record/calendar-day.js';
import { farmSealsInOrder } from './all-seals.js';
import { chained, type Draft } from './entry-line.js';
import type { LedgerEntry } from './ledger-entry.js';
import type { RecordSeal } from './record-seal.js';
import type { AnimalSeals, VisitSeal } from './seals-of-animal.js';
import type { FarmSeals } from './seals-of-farm.js';

/** Which records are to be sealed: all of the farm, or those of `farm.md` and of animals named by their files. */
export interface ToSeal {
  readonly sealed: CalendarDay;
  readonly farmFile: boolean;
  /** Undefined: every animal. */
  readonly animals: ReadonlySet<string> | undefined;
}

/**
 * The entries to put behind a chain so that what is not yet sealed is. A record that differs is left alone: its seal
 * stays broken until it is put right. A picture that is not there is sealed once it is.
 *
 * The scales are sealed with the first visit, since its gait rests on them.
 *
 * Shape:   a farm's seals with pictures' bytes read → new entries in order; none where nothing is new
 * Checked: tests/ledger/sealing.test.ts
 */
export function newEntries(seals: FarmSeals, { sealed, farmFile, animals }: ToSeal): LedgerEntry[] {
  const added: LedgerEntry[] = [];
  let before = seals.ledger.entries.at(-1);
  const add = (draft: Draft): LedgerEntry => {
    before = chained(draft, before);
    added.push(before);
    return before;
  };
  /** The number of the entry a record has after this, and of the one that first sealed it. */
  const seal = (one: RecordSeal, more: Partial<Draft> = {}): { last: number; first: number } | undefined => {
    const { last, first } = one.sealed ?? {};
    if (!isToSeal(one)) return last && first && { last: last.number, first: first.number };
    const { kind, now } = one;
    const entry = add({
      sealed,
      kind,
      ...(now.on === undefined ? {} : { on: now.on }),
      ...(first ? { of: first.number } : {}),
      content: now.content,
      ...more,
    });
    return { last: entry.number, first: first?.number ?? entry.number };
  };
  const wanted = [...seals.animals].filter(([slug]) => animals?.has(slug) ?? true);
  const visited = wanted.some(([, { visits }]) => visits.some(isToSeal));
  const scales = seals.scales && (farmFile || visited) ? seal(seals.scales) : undefined;
  const names = namesFor(seals);
  for (const [slug, one] of wanted) sealAnimal(slug, one, names(slug, one), scales?.last, seal, add, sealed);
  if (farmFile) for (const one of farmSealsInOrder(seals)) if (one !== seals.scales) seal(one);
  return added;
}

type Seal = (one: RecordSeal, more?: Partial<Draft>) => { last: number; first: number } | undefined;

function sealAnimal(
  slug: string,
  one: AnimalSeals,
  animal: string,
  scales: number | undefined,
  seal: Seal,
  add: (draft: Draft) => LedgerEntry,
  sealed: CalendarDay,
): void {
  const identity = seal(one.identity, { animal, file: slug });
  const declared = new Map(
    [...one.lesions, ...one.marks].map((each) => [each.now.content['name'], seal(each, { animal })?.last]),
  );
  for (const episode of one.episodes) seal(episode, { animal });
  for (const visit of one.visits) {
    const names = [scales, identity?.last, ...visit.now.tellsOf.map((name) => declared.get(name))]
      .filter((number) => number !== undefined)
      .toSorted((a, b) => a - b);
    const entry = seal(visit, { animal, names });
    if (entry) for (const picture of visit.pictures) seal(picture, { animal, visit: entry.first });
    const taken = takenOut(visit, one);
    if (taken.length > 0) add({ sealed, kind: 'withdrawn', animal, withdraws: taken, content: whyOf(visit) });
  }
}

function isToSeal({ kind, state, now }: RecordSeal): boolean {
  if (state === 'unsealed') return kind !== 'picture' || 'bytes' in now.content;
  return state === 'grown' || state === 'amended';
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

/** The chain's name for each animal: the one she has, else her file's, told apart where another had it. */
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
