import { expect, it } from 'vitest';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import { readingToTake } from '../../src/schedule/reading-to-take.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { farmWith } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from './a-case.js';

const today = '2026-06-10';
const read = (date: string, top: number, more: Partial<Animal['visits'][number]> = {}) =>
  visit(date, { found: { a: { state: 'open', top, tool: 'ruler', 'top-found': 'seen' } }, ...more });
const worth = (animal: Animal, more: Partial<Farm> = {}) => {
  const farm = farmWith('quernholt', { a: animal }, { ...quernholt, ...more });
  const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
  return readingToTake(farm.farm, work, today);
};

it('is asked for on the day she should be lifted next, and narrows the date', () => {
  const reading = worth(cow([read('2026-05-26', 12, { recheck: '2026-06-23' })]))!;
  expect(reading).toMatchObject({ lesion: 'a', on: '2026-06-23' });
  expect(reading.thenWeeks).toBeLessThan(reading.nowWeeks - 0.9);
});

it('lifted again so soon that no gap can tell anything, a notch is, read again at the farm’s own interval', () => {
  const soon = cow([
    visit('2026-06-09', {
      found: { a: { state: 'open', top: 5, wall: 43, tool: 'calliper', 'top-found': 'seen' } },
      recheck: '2026-06-11',
    }),
  ]);
  expect(worth(soon, { 'every-weeks': 10 })).toMatchObject({
    what: 'new-mark',
    on: '2026-06-11',
    readAgainOn: '2026-08-20',
  });
});

it('none is asked for once the case is closed, or where there is no date to narrow', () => {
  const closed = { episodes: [{ ended: '2026-06-01', result: 'sold' as const }] };
  expect(worth(cow([read('2026-05-26', 12)], closed))).toBeUndefined();
  expect(worth(cow([visit('2026-05-26', { found: { a: { state: 'open' } } })]))).toBeUndefined();
});
