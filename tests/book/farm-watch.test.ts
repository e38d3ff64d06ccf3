import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, practiceOf, visit } from '../herd/invented-herd.js';

const today = '2026-03-10';
const pageOf = (visits: Visit[]) => {
  const farm = herd('quernholt', [cow('2041', visits)]);
  return composeBook(practiceOf(farm), farm, today).animals[0]!;
};
const watchOf = (visits: Visit[]) => pageOf(visits).callVet!.items.map(({ lead, text }) => `${lead} ${text}`);
const gap = { a: { state: 'open' as const } };
const walked = (...scores: number[]) =>
  scores.map((gait, at) => visit(`2026-0${at + 1}-03`, { gait, found: gap }));

test('a sound cow’s page says when anybody rings the vet, and nothing of a cow that is lame', () => {
  const told = watchOf(walked(0, 0, 0));
  expect(told).toHaveLength(2);
  expect(told[0]).toMatch(/^Stop work, stay on the farm, .*: Blisters/);
  expect(told[1]).toMatch(/^The vet, the same day: Swollen above the coronet/);
  expect(JSON.stringify(pageOf(walked(0, 0, 0)))).not.toMatch(/at this visit|two scorings/i);
});

test('lame at two scorings stands in her own box, and the signs to watch for stay what they were', () => {
  const lame = pageOf(walked(0, 2, 2));
  expect(JSON.stringify(lame.vet)).toMatch(/Lame without a block at two scorings/);
  expect(watchOf(walked(0, 2, 2))).toEqual(watchOf(walked(0, 0, 0)));
});

test('a leg swollen above a wrap is a sign only while a wrap is on', () => {
  const wrap = { foot: 'LH', event: 'fitted' } as const;
  expect(watchOf([visit('2026-03-03', { gait: 0, found: gap, wraps: [wrap] })]).join()).toMatch(
    /above a wrap/,
  );
  expect(watchOf(walked(0)).join()).not.toMatch(/above a wrap/);
});
