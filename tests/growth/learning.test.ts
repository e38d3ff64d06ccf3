import { describe, expect, test } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { quarterEnd, filesOfOneCow } from '../../src/growth/learning/priors-for.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { animalWith, top, visit } from './invented-animal.js';
import { farmWith, practiceOf } from './invented-practice.js';

const cow = (second: number, more: Partial<Animal> = {}) =>
  animalWith([visit('2026-01-01', { a: top(10) }), visit('2026-03-03', { a: top(second) })], more);

test.each([
  ['2026-11-25', '2026-09-30'],
  ['2026-10-01', '2026-09-30'],
  ['2026-09-30', '2026-06-30'],
  ['2026-06-30', '2026-03-31'],
  ['2026-03-31', '2025-12-31'],
  ['2026-01-01', '2025-12-31'],
  ['2024-04-01', '2024-03-31'],
])('on %s other cows count up to %s', (today, upTo) => {
  expect(quarterEnd(today)).toBe(upTo);
});

describe('priors', () => {
  test('with nothing on file, or only herself, are the published one', () => {
    const none = pooledOn(practiceOf(), '2026-11-25').priors;
    expect(none.learned).toMatchObject({ mean: 1, cows: 0 });
    expect(none.priorOf('quernholt', 'new')).toEqual(publishedPrior);
    const alone = pooledOn(practiceOf(farmWith('quernholt', { a: cow(20) })), '2026-11-25').priors;
    expect(alone.priorOf('quernholt', 'a')).toEqual(publishedPrior);
    expect(alone.learned.cows).toBe(1);
  });

  test('of a cow not on file depend on all', () => {
    const { priorOf, learned } = pooledOn(
      practiceOf(farmWith('quernholt', { a: cow(20), b: cow(25) })),
      '2026-11-25',
    ).priors;
    expect(priorOf('harrowmere', 'new').mean).toBe(learned.mean);
  });

  test('say how many other cows taught them, and up to which day', () => {
    const { priorOf } = pooledOn(
      practiceOf(farmWith('quernholt', { a: cow(20), b: cow(25), c: animalWith([]) })),
      '2026-11-25',
    ).priors;
    const from = (slug: string) => priorOf('quernholt', slug).learnedFrom;
    expect(from('a')).toEqual({ cows: 1, upTo: '2026-09-30' });
    expect(from('c')).toEqual({ cows: 2, upTo: '2026-09-30' });
  });

  test('and the track record both stop at the end of the last quarter', () => {
    const healed = animalWith([
      visit('2026-01-01', { a: top(10) }),
      visit('2026-03-03', { a: top(22) }),
      visit('2026-07-01', { a: { state: 'healed' } }),
    ]);
    const practice = practiceOf(farmWith('quernholt', { a: healed }));
    expect(pooledOn(practice, '2026-09-30')).toMatchObject({ upTo: '2026-06-30' });
    expect(pooledOn(practice, '2026-09-30').record.gaps).toHaveLength(0);
    expect(pooledOn(practice, '2026-10-01').record.gaps).toHaveLength(1);
  });

  test('do not move with a visit after the quarter, nor with the day within it', () => {
    const later = cow(20);
    const more = { ...later, visits: [...later.visits, visit('2026-04-01', { a: top(27) })] };
    const plain = practiceOf(farmWith('quernholt', { a: later, b: cow(25) }));
    const grown = practiceOf(farmWith('quernholt', { a: more, b: cow(25) }));
    expect(pooledOn(grown, '2026-06-30').priors.priorOf('quernholt', 'b')).toEqual(
      pooledOn(plain, '2026-04-01').priors.priorOf('quernholt', 'b'),
    );
    expect(pooledOn(grown, '2026-07-01').priors.priorOf('quernholt', 'b')).not.toEqual(
      pooledOn(plain, '2026-07-01').priors.priorOf('quernholt', 'b'),
    );
  });

  test('fast cows on other farms raise what is held of this one, and make it surer', () => {
    const fast = Object.fromEntries(Array.from({ length: 30 }, (_, at) => [`f${at}`, cow(26)]));
    const { priorOf } = pooledOn(
      practiceOf(farmWith('harrowmere', fast), farmWith('quernholt', { a: cow(18) })),
      '2026-11-25',
    ).priors;
    const prior = priorOf('quernholt', 'a');
    expect(prior.mean).toBeGreaterThan(1.1);
    expect(prior.variance).toBeLessThan(publishedPrior.variance);
    expect(prior.variance).toBeGreaterThan(0.18 ** 2);
  });
});

describe('files of one cow', () => {
  const groups = (...farms: Parameters<typeof practiceOf>) =>
    filesOfOneCow(farms).map((files) => files.map(({ farm, slug }) => `${farm}/${slug}`));
  const alone = [['harrowmere/587'], ['quernholt/2086']];
  const together = [['harrowmere/587', 'quernholt/2086']];
  const before = (more: Partial<Animal> = {}) =>
    farmWith('harrowmere', { '587': cow(20, { animal: '587', ...more }) });
  const now = (more: Partial<Animal> = {}) =>
    farmWith('quernholt', { '2086': cow(20, { animal: '2086', ...more }) });

  test('are found by tag, however it is spaced, and by electronic number', () => {
    expect(groups(before({ tag: 'UK 000123 402086' }), now({ tag: 'uk000123402086' }))).toEqual(together);
    expect(groups(before({ electronic: '999000000402086' }), now({ electronic: '999000000402086' }))).toEqual(
      together,
    );
    expect(groups(before({ tag: 'UK 000123 402086' }), now({ tag: 'UK 000123 502087' }))).toEqual(alone);
  });

  test('are found by the number and farm she had before', () => {
    const earlier = [{ animal: '587', farm: 'harrowmere', until: '2024-05-01' }];
    expect(groups(before(), now({ earlier }))).toEqual(together);
    expect(groups(before(), now())).toEqual(alone);
  });

  test('stay apart where the earlier number fits two files, or another tag is there', () => {
    const earlier = [{ animal: '587', farm: 'harrowmere' }];
    const twice = farmWith('harrowmere', {
      '587': cow(20, { animal: '587' }),
      '587-2': cow(20, { animal: '587' }),
    });
    expect(groups(twice, now({ earlier }))).toHaveLength(3);
    expect(groups(before({ tag: 'UK 000123 402086' }), now({ earlier, tag: 'UK 000123 502087' }))).toEqual(
      alone,
    );
  });

  test('count as one cow, with what both teach, and neither teaches her', () => {
    const practice = practiceOf(before({ tag: 'X1' }), now({ tag: 'X1' }));
    const { priorOf, learned } = pooledOn(practice, '2026-11-25').priors;
    expect(learned.cows).toBe(1);
    expect(priorOf('quernholt', '2086')).toEqual(publishedPrior);
    // Twice the weight of the cow in tests/hand-worked/learning.test.ts, at the same factor: 1 / (0.0324 + 1/25.9007449) = 14.0893.
    const says = 1 / (0.0324 + 1 / 25.9007449);
    expect(learned.mean).toBeCloseTo((82.6446281 + says * 0.8316257) / (82.6446281 + says), 7);
  });
});
