import { expect, test } from 'vitest';
import type { LedgerEntry } from '../../src/ledger/ledger-entry.js';
import { newEntries } from '../../src/ledger/new-entries.js';
import { emptyLedger } from '../../src/ledger/read-ledger.js';
import { correctionsInBook, correctionsOf, daysToSeal, firstSealed } from '../../src/ledger/record-seal.js';
import { sealsOfFarm } from '../../src/ledger/seals-of-farm.js';
import type { Animal } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';

const first: Visit = { date: '2026-01-05', by: 'Orla Venn', kind: 'recheck', gait: 1 };
const owned = (date: string, ...reasons: string[]): Partial<Visit> => ({
  amended: reasons.map((why) => ({ date, by: 'Orla Venn', why })),
});
const cow = (visit: Visit): Animal => ({
  casefile: 1,
  animal: '2086',
  lesions: {},
  episodes: [{ 'lame-since': '2026-01-01' }],
  visits: [visit],
});

/** Her records as they are now, after each of the others was sealed on its day. */
function after(sealed: readonly (readonly [string, Visit])[], now: Visit) {
  const entries: LedgerEntry[] = [];
  const seals = (visit: Visit) =>
    sealsOfFarm(
      { farm: { farm: 'Quernholt' }, animals: [{ slug: '2086', animal: cow(visit) }] },
      { ...emptyLedger, entries },
      () => undefined,
    );
  for (const [day, visit] of sealed)
    entries.push(...newEntries(seals(visit), { sealed: day, farmFile: true, animals: undefined }));
  return seals(now).animals.get('2086')!;
}

test('days from the event to its first seal: of a visit, by the day it is said to be now', () => {
  const seals = after([['2026-03-01', first]], first);
  expect(firstSealed(seals.visits[0]!)).toBe('2026-03-01');
  // 26 left of January, 28 of February, 1 of March.
  expect(daysToSeal(seals.visits[0]!)).toBe(55);
  const moved = { ...first, date: '2026-01-07', ...owned('2026-03-02', 'wrong day') };
  expect(daysToSeal(after([['2026-03-01', first], ['2026-03-02', moved]], moved).visits[0]!)).toBe(53);
  expect(daysToSeal(seals.episodes[0]!)).toBeUndefined();
  expect(daysToSeal(seals.identity)).toBeUndefined();
  expect(daysToSeal(after([], first).visits[0]!)).toBeUndefined();
}); // prettier-ignore

test('a slip put right on the day of the first seal is a correction, and not in the book', () => {
  const once = { ...first, gait: 2, ...owned('2026-03-01', 'slip') };
  const twice = { ...first, gait: 3, ...owned('2026-03-01', 'slip', 'later') };
  const corrections = (...sealed: (readonly [string, Visit])[]) => {
    const [visit] = after(sealed, sealed.at(-1)![1]).visits;
    const whys = (list: ReturnType<typeof correctionsOf>) => list.map(({ amendment }) => amendment.why);
    return [whys(correctionsOf(visit!)), whys(correctionsInBook(visit!))];
  };
  const day = '2026-03-01';
  expect(corrections([day, first], [day, once])).toEqual([['slip'], []]);
  expect(corrections([day, first], ['2026-03-02', once])).toEqual([['slip'], ['slip']]);
  expect(corrections([day, first], [day, once], ['2026-03-02', twice])).toEqual([['slip', 'later'], ['later']]);
}); // prettier-ignore

test('one that was there at the first seal is in the book: nobody can tell what it put right', () => {
  const once = { ...first, ...owned('2026-03-01', 'slip') };
  expect(correctionsInBook(after([], once).visits[0]!)).toMatchObject([{ changes: [] }]);
  expect(correctionsInBook(after([['2026-03-01', once]], once).visits[0]!)).toMatchObject([{ changes: [] }]);
});
