import { bench, describe } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { worthMeasuring } from '../../src/growth/worth-measuring/worth-measuring.js';
import { farmWith, practiceOf } from '../growth/invented-practice.js';
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

// Five thousand cows on a hundred farms, six readings each and then healed: all that is learned from them, and how good we were.
const healed = { ...growing, visits: [...growing.visits, visit('2026-08-01', { a: { state: 'healed' } })] };
const many = practiceOf(
  ...Array.from({ length: 100 }, (_, farm) =>
    farmWith(
      `farm-${farm}`,
      Object.fromEntries(
        Array.from({ length: 50 }, (__, at) => [`${at}`, { ...healed, animal: `${farm}-${at}` }]),
      ),
      { herd: { housing: 'grazed' }, hemisphere: 'north' },
    ),
  ),
);
const few = { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 };

describe('five thousand cows', () => {
  bench('learning from all of them', () => void pooledOn(many, '2026-11-25').priors, few);
  bench('the track record of all of them', () => void pooledOn(many, '2026-11-25').record, few);
});

describe('one animal', () => {
  const options = { today: '2026-05-26', prior: publishedPrior };
  bench(
    'what is worth measuring',
    () => void worthMeasuring(growing, grazedNorth, options, { next: '2026-06-23' }),
    {
      warmupIterations: 100,
      iterations: 500,
    },
  );
});
