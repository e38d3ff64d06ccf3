import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, practiceOf, visit } from '../herd/invented-herd.js';

const today = '2026-03-10';
const bookOf = (visits: Visit[]) => {
  const farm = herd('quernholt', [cow('2041', visits)]);
  return composeBook(practiceOf(farm), farm, today);
};
const watchOf = (visits: Visit[]) => bookOf(visits).farm.boxes[0]!.items.map(({ lead = '', text }) => `${lead} ${text}`); // prettier-ignore
const gap = { a: { state: 'open' as const } };
const walked = (...scores: number[]) =>
  scores.map((gait, at) => visit(`2026-0${at + 1}-03`, { gait, found: gap }));

test('the first sheet’s back says when anybody rings the vet, and nothing of a cow that is lame', () => {
  const told = watchOf(walked(0, 0, 0));
  expect(told).toHaveLength(2);
  expect(told[0]).toMatch(/^Stop work, stay on the farm, .*: Blisters/);
  expect(told[1]).toMatch(/^The vet, the same day: Swollen above the coronet/);
  expect(JSON.stringify(bookOf(walked(0, 0, 0)).cows)).not.toMatch(/at this visit|two scorings/i);
});

test('lame at two scorings is in her own vet column, and the signs to watch for stay what they were', () => {
  const [lame] = bookOf(walked(0, 2, 2)).cows;
  expect(lame!.columns[2]!.jobs[0]!.text).toMatch(/Lame without a block at two scorings/);
  expect(watchOf(walked(0, 2, 2))).toEqual(watchOf(walked(0, 0, 0)));
});
