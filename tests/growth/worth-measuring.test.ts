import { describe, expect, test } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import {
  notchOnSoundClaw,
  readingsToTry,
  worthMeasuring,
} from '../../src/growth/worth-measuring/worth-measuring.js';
import { animalWith, gap, noSeason, top, visit } from './invented-animal.js';

const options = { today: '2026-03-10', prior: publishedPrior };
const visits = { next: '2026-04-07' };
const worth = (animal: Animal) => worthMeasuring(animal, noSeason, options, visits);
const tried = (animal: Animal) =>
  readingsToTry(animal, noSeason, options, visits).map(({ reading }) => reading);

describe('the one reading', () => {
  test('the wall, where it was never measured and she has been read twice', () => {
    const animal = animalWith([visit('2026-01-01', { a: top(5) }), visit('2026-03-03', { a: top(17) })]);
    expect(worth(animal)).toMatchObject({ what: 'wall', of: 'a', tool: 'ruler' });
  });

  test('the top, where the wall is known and she has been read once', () => {
    const animal = animalWith([visit('2026-03-03', { a: top(10, { wall: 43, tool: 'calliper' }) })]);
    expect(worth(animal)).toMatchObject({ what: 'top', of: 'a', tool: 'calliper', on: '2026-04-07' });
  });

  test('is the one that narrows most of those that ask no more than a usual visit', () => {
    const animal = animalWith(
      [visit('2026-01-01', { a: top(5), b: top(10) }), visit('2026-03-03', { a: top(17) })],
      {
        lesions: { a: gap, b: { ...gap, foot: 'RF', line: 'dorsal' } },
      },
    );
    const all = readingsToTry(animal, noSeason, options, visits);
    const chosen = worth(animal)!;
    const narrowed = ({ nowWeeks, thenWeeks }: typeof chosen) => nowWeeks - thenWeeks;
    const usual = all.filter(({ trouble }) => trouble === 'usual').map(({ reading }) => narrowed(reading));
    expect(narrowed(chosen)).toBeGreaterThanOrEqual(Math.max(...usual));
    for (const { reading } of all) expect(narrowed(reading)).toBeLessThan(narrowed(chosen) + 2.01);
  });

  test('none for a gap that is held, healed, or likely out by then', () => {
    const held = [20, 20, 20].map((mm, at) =>
      visit(['2026-01-01', '2026-02-05', '2026-03-10'][at]!, { a: top(mm) }),
    );
    expect(worth(animalWith(held))).toBeUndefined();
    expect(worth(animalWith([visit('2026-03-03', { a: top(41, { wall: 43 }) })]))).toBeUndefined();
    expect(
      worth(
        animalWith([visit('2026-03-03', { a: top(20) }), visit('2026-03-10', { a: { state: 'healed' } })]),
      ),
    ).toBeUndefined();
    expect(worth(animalWith([]))).toBeUndefined();
  });

  test('none while the gap is at the coronet: sound horn must come first', () => {
    expect(worth(animalWith([visit('2026-03-03', { a: top(0, { wall: 43 }) })]))).toBeUndefined();
  });

  test('none on a day gone by', () => {
    const animal = animalWith([visit('2026-03-03', { a: top(10) })]);
    expect(worthMeasuring(animal, noSeason, options, { next: '2026-03-09' })).toBeUndefined();
    expect(worthMeasuring(animal, noSeason, options, { next: '2026-03-10' })).toBeDefined();
  });

  test('no reading of any kind makes a date less sure', () => {
    const animal = animalWith(
      [
        visit('2026-01-01', { a: top(5), m: { distance: 20, tool: 'ruler' } }),
        visit('2026-03-03', { a: top(17) }),
      ],
      {
        marks: { m: { foot: 'RH', claw: 'outer', line: 'dorsal' } },
      },
    );
    const all = tried(animal);
    expect(new Set(all.map(({ what }) => what))).toEqual(new Set(['top', 'wall', 'mark', 'new-mark']));
    for (const { nowWeeks, thenWeeks } of all) expect(thenWeeks).toBeLessThanOrEqual(nowWeeks + 1e-9);
    const top1 = all.filter(({ what }) => what === 'top').map(({ thenWeeks }) => thenWeeks);
    expect(top1[1]).toBeLessThan(top1[0]!);
  });

  test('a line followed by calliper is not offered to a ruler', () => {
    const animal = animalWith([visit('2026-03-03', { a: top(10, { tool: 'calliper' }) })]);
    expect(
      tried(animal)
        .filter(({ what }) => what !== 'new-mark')
        .map(({ tool }) => tool),
    ).toEqual(['calliper', 'calliper']);
  });
});

describe('a notch', () => {
  test('goes on the front wall of a claw with no trouble, hind feet first', () => {
    expect(notchOnSoundClaw(animalWith([]), '2026-04-07')).toMatchObject({
      foot: 'RH',
      claw: 'outer',
      line: 'dorsal',
    });
    const sore = animalWith([], { lesions: { a: { ...gap, foot: 'RH' }, d: { code: 'DD', foot: 'LH' } } });
    expect(notchOnSoundClaw(sore, '2026-04-07')).toMatchObject({ foot: 'RH', claw: 'inner' });
  });

  test('may go on a claw whose lesion has healed; nowhere where every foot is sore', () => {
    const healed = animalWith([visit('2026-01-01', { a: { state: 'healed' } })], {
      lesions: { a: { ...gap, foot: 'RH' } },
    });
    expect(notchOnSoundClaw(healed, '2026-04-07')).toMatchObject({ foot: 'RH', claw: 'outer' });
    const everywhere = Object.fromEntries(
      (['LF', 'RF', 'LH', 'RH'] as const).map((foot, at) => [`d${at}`, { code: 'DD' as const, foot }]),
    );
    expect(notchOnSoundClaw(animalWith([], { lesions: everywhere }), '2026-04-07')).toBeUndefined();
  });
});
