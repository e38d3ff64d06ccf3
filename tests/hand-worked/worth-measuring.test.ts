import { expect, test } from 'vitest';
import { dayNumber } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { seasonFrom } from '../../src/growth/growth-line.js';
import { readingsToTry, worthMeasuring } from '../../src/growth/worth-measuring/worth-measuring.js';
import { animalWith, gapOf, gap, grazedNorth, growthOf, top, visit } from '../growth/invented-animal.js';

const options = { today: '2026-03-10', prior: publishedPrior };
const next = '2026-04-07';

const animal = animalWith(
  [
    visit('2026-01-01', { a: top(10), m: { distance: 12, tool: 'ruler' } }),
    visit('2026-03-03', { a: top(21) }),
  ],
  {
    marks: { m: { foot: 'LH', claw: 'inner', line: 'dorsal' } },
  },
);

const weeks = (one: Animal) => {
  const { forecast } = growthOf(one, '2026-04-07', grazedNorth).lesions[0]!;
  if (forecast.outcome !== 'range') return expect.unreachable();
  return (forecast.days.late! - forecast.days.early!) / 14;
};

const withReading = (found: Parameters<typeof visit>[1]) => ({
  ...animal,
  visits: [...animal.visits, visit(next, found)],
});

const tried = readingsToTry(animal, grazedNorth, options, { next, daysToSecond: 28 });
const thenWeeks = (what: string, tool: string) =>
  tried.find(({ reading }) => reading.what === what && reading.tool === tool)!.reading.thenWeeks;

// What is worked out beforehand is what comes of writing the expected reading into the record and working all out anew.
test('a top: the record with and without it', () => {
  const expected = growthOf(animal, '2026-03-10', grazedNorth).lesions[0]!.expectedOn(next)!.meanMm;
  expect(tried[0]!.reading.nowWeeks).toBeCloseTo(weeks(animal), 9);
  expect(thenWeeks('top', 'ruler')).toBeCloseTo(weeks(withReading({ a: top(expected) })), 6);
  expect(thenWeeks('top', 'calliper')).toBeCloseTo(
    weeks(withReading({ a: top(expected, { tool: 'calliper' }) })),
    6,
  );
});

test('the wall: the record with and without it', () => {
  expect(thenWeeks('wall', 'ruler')).toBeCloseTo(
    weeks(withReading({ a: { state: 'open', wall: 42, tool: 'ruler' } })),
    6,
  );
});

// Dorsal, inner claw: ρ = 5.3 · 0.98; it has been read once, so nothing but her own factor says where it should be.
test('a mark there is: the record with and without it', () => {
  const { factor } = growthOf(animal, '2026-03-10', grazedNorth);
  const months = seasonFrom(dayNumber('2026-01-01'), grazedNorth).monthsAfter(96);
  const distance = 12 + 5.3 * 0.98 * factor.mean * months;
  expect(thenWeeks('mark', 'ruler')).toBeCloseTo(weeks(withReading({ m: { distance, tool: 'ruler' } })), 6);
});

// The wall is not measured (42 mm, SD 7): by far the most that is not known of the date.
test('the wall by ruler is named, with how much it narrows', () => {
  const worth = worthMeasuring(animal, grazedNorth, options, { next, daysToSecond: 28 })!;
  expect(worth).toMatchObject({ lesion: 'a', what: 'wall', tool: 'ruler', line: gap.line, on: next });
  expect(worth.nowWeeks).toBeCloseTo(weeks(animal), 9);
  expect(worth.thenWeeks).toBeLessThan(worth.nowWeeks - 1);
  expect(gapOf(animal).wall.source).toBe('reference');
});
