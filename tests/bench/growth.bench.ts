import { bench, describe } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import { animalWith, grazedNorth, growthOf, noSeason, top, visit } from '../growth/invented-animal.js';

// One gap, six readings four weeks apart by ruler, forecast included. It should stay well under one millisecond.
const growing = animalWith(
  [10, 15, 21, 26, 32, 37].map((mm, k) => visit(addDays('2026-01-05', 28 * k), { a: top(mm, { wall: 60 }) })),
);

// The same gap standing still: two passes.
const standing = animalWith(
  [20, 21, 20, 21, 20, 21].map((mm, k) => visit(addDays('2026-01-05', 28 * k), { a: top(mm, { wall: 60 }) })),
);

// Enough runs that a busy machine does not decide: the first ones only warm the engine.
const runs = { warmupIterations: 300, iterations: 2000 };

describe('one animal, six readings, with its forecast', () => {
  bench('growing down, no season', () => void growthOf(growing, '2026-11-25', noSeason), runs);
  bench('growing down, at grass', () => void growthOf(growing, '2026-11-25', grazedNorth), runs);
  bench('held, at grass', () => void growthOf(standing, '2026-11-25', grazedNorth), runs);
});
