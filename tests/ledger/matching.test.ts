import { describe, expect, test } from 'vitest';
import { correctionsOf } from '../../src/ledger/record-seal.js';
import { chained, type LedgerEntry } from '../../src/ledger/ledger-entry.js';
import { newEntries, brokenSeals, withdrawals } from '../../src/ledger/new-entries.js';
import { pairRecords } from '../../src/ledger/pair-records.js';
import { emptyLedger } from '../../src/ledger/read-ledger.js';
import type { Sealable } from '../../src/ledger/sealable.js';
import { sealedRecords } from '../../src/ledger/sealed-records.js';
import { sealsOfFarm } from '../../src/ledger/seals-of-farm.js';
import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import { given } from '../../src/record/given.js';

describe('which sealed record is which', () => {
  const visit = (on: string, more: object = {}): Sealable => ({
    kind: 'visit',
    path: ['visits', 0],
    on,
    content: { date: on, by: 'Orla Venn', kind: 'recheck', gait: 1, ...more },
  });
  const paired = (before: readonly Sealable[], now: readonly Sealable[], withdraws: number[] = []) => {
    const entries: LedgerEntry[] = [];
    for (const { kind, on, content } of before)
      entries.push(chained({ sealed: '2026-03-01', kind, ...given({ on }), content }, entries.at(-1)));
    if (withdraws.length > 0)
      entries.push(
        chained({ sealed: '2026-03-01', kind: 'withdrawn', withdraws, content: {} }, entries.at(-1)),
      );
    const { sealed, missing } = pairRecords(sealedRecords({ entries, faults: [] }), now);
    return [sealed.map((one) => one?.first.number), missing.map(({ first }) => first.number)];
  };
  const [first, second] = [visit('2026-01-05'), visit('2026-02-02')];
  const owned = { amended: [{ by: 'Orla Venn', why: 'wrong day' }] };
  const other = { kind: 'report', gait: 3 };
  const more = { note: 'off her feed', recheck: '2026-02-02', trimmed: ['LH'] };

  test.each<[string, readonly Sealable[], readonly Sealable[], (number | undefined)[], number[]]>([
    ['in another order', [first, second], [second, first], [2, 1], []],
    [
      'one put in before',
      [first, second],
      [visit('2025-12-01', other), first, second],
      [undefined, 1, 2],
      [],
    ],
    ['two that say the same', [first, first], [first, first], [1, 2], []],
    ['one of two that said the same is gone', [first, first], [first], [1], [2]],
    ['the same words go before the same day', [visit('2026-01-05', other), first], [first], [2], [1]],
    [
      'of one day, by who came',
      [visit('2026-01-05', { by: 'Tam Brierley' }), first],
      [visit('2026-01-05', other)],
      [2],
      [1],
    ],
    [
      'the same day and trimmer go before more alike on another day',
      [visit('2026-01-06', other), first],
      [visit('2026-01-05', other)],
      [2],
      [1],
    ],
    [
      'moved, to the one most alike',
      [visit('2026-01-06', { gait: 2 }), visit('2026-01-08')],
      [visit('2026-01-07')],
      [2],
      [1],
    ],
    [
      'as alike, the one written first',
      [first],
      [visit('2026-01-06'), visit('2026-01-07')],
      [1, undefined],
      [],
    ],
    ['moved to another day', [first], [visit('2026-01-06')], [1], []],
    ['changed in silence by half its keys', [first], [visit('2026-01-06', { gait: 2 })], [1], []],
    ['changed in silence by more', [first], [visit('2026-01-06', other)], [undefined], [1]],
    [
      'moved, and most of it taken out',
      [visit('2026-01-05', more)],
      [visit('2026-01-06', { gait: 2 })],
      [undefined],
      [1],
    ],
    [
      'moved, and most of it put in',
      [visit('2026-01-05', { gait: 2 })],
      [visit('2026-01-06', more)],
      [undefined],
      [1],
    ],
    ['changed as much, and owned', [first], [visit('2026-01-06', { ...other, ...owned })], [1], []],
  ])('%s', (_, before, now, sealed, missing) => {
    expect(paired(before, now)).toEqual([sealed, missing]);
  });

  const episode = (content: Sealable['content']): Sealable => {
    const on = content['lame-since'];
    return { kind: 'episode', path: ['episodes', 0], content, ...(typeof on === 'string' && { on }) };
  };
  const since = { 'lame-since': '2026-01-05' };
  const end = { ended: '2026-02-01' };
  const now = episode({ ...since, ...end, result: 'sound' });
  const otherEnd = episode({ ...since, ended: '2026-02-08', result: 'sound' });
  const [late, corrected] = [visit('2026-01-06'), { amended: [{ by: 'Tam Brierley', why: 'wrong foot' }] }];

  test.each<[string, readonly Sealable[], Sealable, (number | undefined)[], number[]]>([
    ['all it said changed in silence', [episode({ result: 'sound' })], episode({ result: 'sold' }), [undefined], [1]],
    ['grown from a third of what it says', [episode(end)], now, [1], []],
    ['grown goes before the same day', [otherEnd, episode(end)], now, [2], [1]],
    ['grown since its day goes before grown, though less alike', [episode({ ...end, result: 'sound' }), episode(since)], now, [2], [1]],
    ['owned goes before the same day', [visit('2026-01-05', corrected), late], visit('2026-01-05', owned), [2], [1]],
  ])('%s', (_, before, one, sealed, missing) => {
    expect(paired(before, [one])).toEqual([sealed, missing]);
  }); // prettier-ignore

  test('one that was withdrawn is neither found nor missed', () => {
    expect(paired([first, second], [first, second], [1])).toEqual([[undefined, 2], []]);
  });
});

describe('what each correction changed', () => {
  const why = (...reasons: string[]) =>
    reasons.map((one) => ({ date: '2026-03-02', by: 'Orla Venn', why: one }));
  const animal = (gait: number, reasons: readonly string[]): Animal => ({
    casefile: 1,
    animal: '2086',
    lesions: {},
    visits: [
      {
        date: '2026-01-05',
        by: 'Orla Venn',
        kind: 'recheck',
        gait,
        ...(reasons.length > 0 ? { amended: why(...reasons) } : {}),
      },
    ],
  });
  const said = (...versions: Animal[]) => {
    const entries: LedgerEntry[] = [];
    const seals = (one: Animal) =>
      sealsOfFarm(
        { farm: { farm: 'Quernholt' }, animals: [{ slug: '2086', animal: one }] },
        { ...emptyLedger, entries },
        () => undefined,
      );
    for (const one of versions.slice(0, -1))
      entries.push(...newEntries(seals(one), { sealed: '2026-03-01', farmFile: true, animals: undefined }));
    const [visit] = seals(versions.at(-1)!).animals.get('2086')!.visits;
    return correctionsOf(visit!).map(({ amendment, changes }) => [
      amendment.why,
      changes.map(({ before, now }) => [before, now]),
    ]);
  };

  test('two that were sealed one after the other: each its own', () => {
    const [first, second] = [animal(2, ['one']), animal(3, ['one', 'two'])];
    const each = [
      ['one', [[1, 2]]],
      ['two', [[2, 3]]],
    ];
    expect(said(animal(1, []), first, second)).toEqual(each);
    expect(said(animal(1, []), first, second, second)).toEqual(each);
  });

  test('two between two seals: what changed is said once, of the later', () => {
    expect(said(animal(1, []), animal(3, ['one', 'two']))).toEqual([
      ['one', []],
      ['two', [[1, 3]]],
    ]);
  });

  test('corrected before it was ever sealed: nobody can tell', () => {
    expect(said(animal(2, ['one']))).toEqual([['one', []]]);
  });
});

describe('what goes behind a chain', () => {
  const plan = { date: '2026-02-01', with: 'Nan Thistlewrack' };
  const cow: Animal = {
    casefile: 1,
    animal: '2086',
    lesions: {},
    visits: [
      {
        date: '2026-01-05',
        by: 'Orla Venn',
        kind: 'recheck',
        photos: [{ file: 'photos/sole.jpg', foot: 'LH', view: 'sole' }],
      },
    ],
  };
  const day = { sealed: '2026-03-01', farmFile: true, animals: undefined };
  const seals = (
    now: { readonly farm?: Partial<Farm>; readonly animals?: readonly Animal[] },
    entries: readonly LedgerEntry[],
    isPictureThere = true,
  ) =>
    sealsOfFarm(
      {
        farm: { farm: 'Quernholt', ...now.farm },
        animals: (now.animals ?? []).map((animal) => ({ slug: animal.animal, animal })),
      },
      { ...emptyLedger, entries },
      () => (isPictureThere ? { bytes: 4, sha512: 'f'.repeat(128) } : undefined),
    );

  test('a plan of a later day is another plan; of the same day it is the same one, changed', () => {
    const entries = newEntries(seals({ farm: { plan } }, []), day);
    const stateOf = (now: NonNullable<Farm['plan']>) => seals({ farm: { plan: now } }, entries).plan!.state;
    expect(stateOf(plan)).toBe('sealed');
    expect(stateOf({ ...plan, with: 'Orla Venn' })).toBe('differs');
    expect(stateOf({ date: '2026-02-02', with: 'Orla Venn' })).toBe('unsealed');
    expect(stateOf({ date: '2026-01-31', with: 'Orla Venn' })).toBe('differs');
  });

  test('a plan or scale taken out of the farm’s file is missing', () => {
    const farm = { plan, 'gait-scale': 'uk-0-3' } as const;
    const entries = newEntries(seals({ farm }, []), day);
    expect(entries.map(({ kind }) => kind)).toEqual(['scales', 'plan']);
    const missing = (now: Partial<Farm>) =>
      seals({ farm: now }, entries).missing.map(({ first }) => first.kind);
    expect(missing(farm)).toEqual([]);
    expect(missing({ plan })).toEqual(['scales']);
    expect(missing({ 'gait-scale': 'uk-0-3' })).toEqual(['plan']);
  });

  test('a visit names what it is based on as that stands now, lowest first', () => {
    const [visit] = cow.visits;
    const about = { lesions: { a: { code: 'SU', foot: 'LH', claw: 'outer' } } } as const;
    const found = { found: { a: { state: 'open' } } } as const;
    const before: Animal = { ...cow, ...about, visits: [{ ...visit!, ...found }] };
    const now: Animal = {
      ...before,
      calvings: ['2025-11-02'],
      visits: [...before.visits, { date: '2026-02-02', by: 'Orla Venn', kind: 'recheck', ...found }],
    };
    const once = newEntries(seals({ animals: [before] }, [], false), day);
    expect(once.map(({ kind, names }) => [kind, names])).toEqual([
      ['identity', undefined],
      ['lesion', undefined],
      ['visit', [1, 2]],
    ]);
    const farm = { 'gait-scale': 'uk-0-3' } as const;
    const scaled = newEntries(seals({ farm, animals: [before] }, [], false), day);
    expect(scaled.map(({ kind, names }) => [kind, names])).toEqual([
      ['scales', undefined],
      ['identity', undefined],
      ['lesion', undefined],
      ['visit', [1, 2, 3]],
    ]);
    expect(newEntries(seals({ animals: [now] }, once, false), day)).toMatchObject([
      { kind: 'identity', number: 4, of: 1 },
      { kind: 'visit', number: 5, names: [2, 4] },
    ]);
  });

  test('a picture that is not there is not sealed until it is', () => {
    const without = newEntries(seals({ animals: [cow] }, [], false), day);
    expect(without.map(({ kind }) => kind)).toEqual(['identity', 'visit']);
    expect(newEntries(seals({ animals: [cow] }, without, false), day)).toEqual([]);
    expect(newEntries(seals({ animals: [cow] }, without), day)).toMatchObject([
      { kind: 'picture', number: 3, visit: 2, content: { bytes: 4 } },
    ]);
  });

  test('a correction takes back the seals of the pictures it took out of its own visit, and says why', () => {
    const taken = (date: string, why?: string): Animal['visits'][number] => ({
      date,
      by: 'Orla Venn',
      kind: 'recheck',
      ...(why === undefined
        ? { photos: [{ file: `photos/${date}.jpg`, foot: 'LH', view: 'sole' }] }
        : { amended: [{ date: '2026-03-02', by: 'Orla Venn', why }] }),
    });
    const both = (...visits: Animal['visits']) => seals({ animals: [{ ...cow, visits }] }, once);
    const once: LedgerEntry[] = [];
    once.push(...newEntries(both(taken('2026-01-05'), taken('2026-02-02')), day));
    expect(once.map(({ kind }) => kind)).toEqual(['identity', 'visit', 'picture', 'visit', 'picture']);
    const now = both(taken('2026-01-05', 'not hers'), taken('2026-02-02', 'blurred'));
    expect(newEntries(now, day)).toMatchObject([
      { kind: 'visit', of: 2 },
      { kind: 'withdrawn', withdraws: [3], content: { by: 'Orla Venn', why: 'not hers' } },
      { kind: 'visit', of: 4 },
      { kind: 'withdrawn', withdraws: [5], content: { by: 'Orla Venn', why: 'blurred' } },
    ]);
    expect(brokenSeals(now)).toEqual([]);
  });

  test('of a record that is gone all its seals are taken back, in order', () => {
    const once = newEntries(seals({ animals: [cow] }, [], false), day);
    const [visit] = cow.visits;
    const corrected: Animal = {
      ...cow,
      visits: [{ ...visit!, gait: 2, amended: [{ date: '2026-03-02', by: 'Orla Venn', why: 'left out' }] }],
    };
    const twice = [...once, ...newEntries(seals({ animals: [corrected] }, once, false), day)];
    expect(twice.map(({ kind }) => kind)).toEqual(['identity', 'visit', 'visit']);
    const gone = seals({ animals: [{ ...cow, visits: [] }] }, twice, false);
    expect(
      withdrawals(gone, brokenSeals(gone), { sealed: '2026-03-03', content: { by: 'Orla Venn' } }),
    ).toMatchObject([{ kind: 'withdrawn', animal: '2086', number: 4, withdraws: [2, 3] }]);
  });
});

describe('a visit that was corrected, sealed and written back', () => {
  const animal = (gait: number, reasons: readonly string[]): Animal => ({
    casefile: 1,
    animal: '2086',
    lesions: {},
    visits: [
      {
        date: '2026-01-05',
        by: 'Orla Venn',
        kind: 'recheck',
        gait,
        ...(reasons.length > 0 && {
          amended: reasons.map((why) => ({ date: '2026-03-02', by: 'Orla Venn', why })),
        }),
      },
    ],
  });
  const seals = (one: Animal, entries: readonly LedgerEntry[]) =>
    sealsOfFarm(
      { farm: { farm: 'Quernholt' }, animals: [{ slug: '2086', animal: one }] },
      { ...emptyLedger, entries },
      () => undefined,
    );
  const entries: LedgerEntry[] = [];
  for (const one of [animal(1, []), animal(2, ['one']), animal(3, ['one', 'two'])])
    entries.push(
      ...newEntries(seals(one, entries), { sealed: '2026-03-03', farmFile: true, animals: undefined }),
    );
  const takenBack = (one: Animal) => {
    const now = seals(one, entries);
    const asked = { sealed: '2026-03-04', content: { by: 'Orla Venn' } };
    return withdrawals(now, brokenSeals(now), asked).map(({ withdraws }) => withdraws);
  };

  test.each([
    ['as it was sealed last: nothing', animal(3, ['one', 'two']), []],
    ['as it was before the second correction: that one', animal(2, ['one']), [[4]]],
    ['as it was at first: both corrections', animal(1, []), [[3, 4]]],
    ['as it never was: nothing, it stays broken', animal(0, []), []],
  ])('%s is taken back', (_, one, withdraws) => {
    expect(entries.map(({ kind }) => kind)).toEqual(['identity', 'visit', 'visit', 'visit']);
    expect(takenBack(one)).toEqual(withdraws);
  });
});

describe('which file is which sealed animal', () => {
  const animal = (number: string, dates: readonly string[], more: Partial<Animal> = {}): Animal => ({
    casefile: 1,
    animal: number,
    lesions: {},
    visits: dates.map((date) => ({ date, by: 'Orla Venn', kind: 'recheck' })),
    ...more,
  });
  const seals = (files: Readonly<Record<string, Animal>>, entries: readonly LedgerEntry[]) =>
    sealsOfFarm(
      {
        farm: { farm: 'Quernholt' },
        animals: Object.entries(files).map(([slug, one]) => ({ slug, animal: one })),
      },
      { ...emptyLedger, entries },
      () => undefined,
    );
  const old = animal('2086', ['2026-01-05', '2026-02-02']);
  const mate = animal('31', ['2026-01-07']);
  const entries = newEntries(seals({ 'cow-a': old, 'cow-b': mate }, []), {
    sealed: '2026-03-01',
    farmFile: true,
    animals: undefined,
  });
  const renumbered = { ...old, animal: '7', earlier: [{ animal: '2086', until: '2026-03-02' }] };

  test.each<[string, Record<string, Animal>, Record<string, string | undefined>, number]>([
    ['as they were', { 'cow-a': old, 'cow-b': mate }, { 'cow-a': 'cow-a', 'cow-b': 'cow-b' }, 0],
    ['in a file of another name', { x: old, 'cow-b': mate }, { x: 'cow-a', 'cow-b': 'cow-b' }, 0],
    [
      'in her file, her number put right',
      { 'cow-a': { ...old, animal: '2087' }, 'cow-b': mate },
      { 'cow-a': 'cow-a', 'cow-b': 'cow-b' },
      0,
    ],
    ['with another number', { x: renumbered, 'cow-b': mate }, { x: 'cow-a', 'cow-b': 'cow-b' }, 0],
    [
      'a new cow has her number and her file',
      { x: renumbered, 'cow-a': animal('2086', ['2026-03-03']), 'cow-b': mate },
      { x: 'cow-a', 'cow-a': undefined, 'cow-b': 'cow-b' },
      0,
    ],
    ['files changed round', { 'cow-a': mate, 'cow-b': old }, { 'cow-a': 'cow-b', 'cow-b': 'cow-a' }, 0],
    ['a file is gone', { 'cow-b': mate }, { 'cow-b': 'cow-b' }, 1],
  ])('%s', (_, files, names, gone) => {
    const { animals, missingAnimals } = seals(files, entries);
    expect(Object.fromEntries([...animals].map(([slug, { name }]) => [slug, name]))).toEqual(names);
    expect(missingAnimals).toHaveLength(gone);
    const lost = brokenSeals(seals(files, entries)).filter(({ now }) => now === undefined);
    // Of cow-a that is gone: who she was and her two visits.
    expect(lost.map(({ sealed }) => sealed.first.kind)).toEqual(gone ? ['identity', 'visit', 'visit'] : []);
  });

  describe('with no visit to tell them apart', () => {
    const bare = newEntries(seals({ 'cow-a': animal('2086', []) }, []), {
      sealed: '2026-03-01',
      farmFile: true,
      animals: undefined,
    });
    const earlier = [{ animal: '2086', until: '2026-03-02' }];
    test.each<[string, Record<string, Animal>, string | undefined]>([
      ['her file and number, before a cow that had it', { x: animal('7', [], { earlier }), 'cow-a': animal('2086', []) }, 'cow-a'], // prettier-ignore
      ['a cow that had her number, before one that has it', { x: animal('2086', []), y: animal('7', [], { earlier }) }, 'y'], // prettier-ignore
      ['a cow that has her number, before one in her file', { 'cow-a': animal('99', []), x: animal('2086', []) }, 'x'], // prettier-ignore
      ['neither number nor file', { x: animal('99', []) }, undefined],
    ])('%s', (_, files, slug) => {
      const named = [...seals(files, bare).animals].filter(([, { name }]) => name === 'cow-a');
      expect(named.map(([file]) => file)).toEqual(slug === undefined ? [] : [slug]);
    });

    test('each new cow in a file of a name that was sealed has a name of her own', () => {
      const all = [...bare];
      for (const number of ['7', '8', '9'].values()) {
        const files = { x: { ...animal('2086', []) }, 'cow-a': animal(number, []) };
        const gone = all
          .filter(({ kind }) => kind === 'identity')
          .slice(1)
          .map(({ number: of }) => of);
        if (gone.length > 0)
          all.push(
            chained({ sealed: '2026-03-02', kind: 'withdrawn', withdraws: gone, content: {} }, all.at(-1)),
          );
        all.push(
          ...newEntries(seals(files, all), {
            sealed: '2026-03-02',
            farmFile: true,
            animals: new Set(['cow-a']),
          }),
        );
      }
      const names = all.flatMap(({ kind, animal: name }) => (kind === 'identity' ? name : []));
      expect(names).toEqual(['cow-a', 'cow-a~2', 'cow-a~3', 'cow-a~4']);
    });
  });
});
