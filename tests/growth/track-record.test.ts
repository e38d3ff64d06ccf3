import { describe, expect, test } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import {
  scoreForecast,
  scoredGaps,
  healedGaps,
  trackRecord,
} from '../../src/growth/track-record/track-record.js';
import { animalWith, noSeason, top, visit } from './invented-animal.js';
import { digestOf } from '../../src/herd/farm-digest.js';
import { farmWith } from './invented-practice.js';

const healed = { a: { state: 'healed' as const } };
const today = '2026-11-25';

describe('one forecast', () => {
  const at = (chances: readonly [number, number], best: number | null = 20) =>
    scoreForecast(
      { chanceOutBy: (day) => (day === 10 ? chances[0] : chances[1]), best },
      { after: 10, by: 30 },
    );

  test.each([
    ['wholly inside', [0.2, 0.6], 1],
    ['half inside: its first half comes before the range', [0, 0.2], 0.5],
    ['over all of it', [0, 1], 0.8],
    ['after it', [0.91, 0.99], 0],
    ['no chance spent, inside', [0.5, 0.5], 1],
    ['no chance spent, at the edge', [0.1, 0.1], 1],
    ['no chance spent, outside', [0, 0], 0],
    ['a chance that falls', [0.6, 0.2], 1],
  ] as const)('%s', (_, chances, share) => {
    expect(at(chances).inRange).toBeCloseTo(share, 12);
  });

  test.each([
    [20, 0],
    [10, 0],
    [30, 0],
    [4, 6],
    [36.5, 6.5],
    [null, 1826],
  ])('best on day %s, out after day 10 by day 30: off by %s days', (best, days) => {
    expect(at([0.2, 0.6], best).errorDays).toBe(days);
  });
});

describe('healed gaps', () => {
  const story = (...visits: Animal['visits']) => healedGaps(animalWith(visits), today);

  test('the truth lies between last seen open or covered and first seen healed', () => {
    const gaps = story(
      visit('2026-01-01', { a: top(20) }),
      visit('2026-02-01', { a: top(27) }),
      visit('2026-03-01', { a: { state: 'covered' } }),
      visit('2026-04-01', healed),
      visit('2026-05-01', healed),
    );
    expect(gaps).toMatchObject([
      { after: '2026-03-01', by: '2026-04-01', forecastOn: ['2026-01-01', '2026-02-01'] },
    ]);
  });

  test('word from the farm is not seen; a foot left down is not seen', () => {
    const gaps = story(
      visit('2026-01-01', { a: top(20) }),
      visit('2026-03-01', healed, { kind: 'report' }),
      visit('2026-03-10', healed, { feet: { LH: { lifted: false } } }),
      visit('2026-04-01', healed),
    );
    expect(gaps).toMatchObject([{ after: '2026-01-01', by: '2026-04-01' }]);
  });

  test('a gap still open, first seen healed, joined, or healed only later than the day has nothing to score', () => {
    expect(story(visit('2026-01-01', { a: top(20) }))).toEqual([]);
    expect(story(visit('2026-01-01', healed))).toEqual([]);
    expect(
      story(
        visit('2026-01-01', { a: top(20) }),
        visit('2026-02-01', { a: top(20, { joined: 'b' }) }),
        visit('2026-04-01', healed),
      ),
    ).toEqual([]);
    expect(
      healedGaps(
        animalWith([visit('2026-01-01', { a: top(20) }), visit('2026-04-01', healed)]),
        '2026-03-31',
      ),
    ).toEqual([]);
  });

  test('a reading taken with the expected one in view is left out, and still teaches the next', () => {
    const visits = [
      visit('2026-01-01', { a: top(10) }),
      visit('2026-02-01', { a: top(20) }, { 'saw-expected': true }),
      visit('2026-03-01', { a: top(26) }),
      visit('2026-06-01', healed),
    ];
    const [gap] = scoredGaps(animalWith(visits), noSeason, today);
    expect(gap).toMatchObject({ scores: [{}, {}], withoutForecast: 0, leftOut: 1 });
    expect(healedGaps(animalWith(visits), today)[0]!.forecastOn).toEqual(['2026-01-01', '2026-03-01']);
    const [without] = scoredGaps(animalWith(visits.toSpliced(1, 1)), noSeason, today);
    expect(gap!.scores[1]).not.toEqual(without!.scores[1]);
    expect(gap!.scores[0]).toEqual(without!.scores[0]);
  });
});

describe('the record', () => {
  const grown = animalWith([
    visit('2026-01-01', { a: top(25) }),
    visit('2026-02-01', { a: top(31) }),
    visit('2026-05-01', healed),
  ]);
  const ranUp = animalWith([
    visit('2025-10-01', { a: top(25) }),
    visit('2025-11-01', { a: top(10) }),
    visit('2025-12-01', { a: top(16) }),
    visit('2026-06-01', healed),
  ]);
  const held = animalWith([
    visit('2025-10-01', { a: top(20) }),
    visit('2025-11-01', { a: top(20) }),
    visit('2025-12-15', { a: top(20) }),
    visit('2026-06-01', healed),
  ]);

  test('keeps restarted gaps apart as well; a reading without a date is counted, not scored', () => {
    const record = trackRecord([digestOf(farmWith('quernholt', { grown, held, ranUp }), today)]);
    expect(record.gaps.map(({ slug, restarted }) => [slug, restarted])).toEqual([
      ['grown', false],
      ['held', true],
      ['ranUp', true],
    ]);
    expect(record.gaps[1]!.withoutForecast).toBeGreaterThan(0);
    expect(record.withoutForecast).toBe(record.gaps[1]!.withoutForecast + record.gaps[2]!.withoutForecast);
  });

  test('counts each forecast of each gap', () => {
    const cows = Object.fromEntries(Array.from({ length: 5 }, (_, at) => [`c${at}`, grown]));
    const { gaps, forecasts } = trackRecord([digestOf(farmWith('quernholt', cows), today)]);
    expect(gaps.map(({ scores }) => scores.length)).toEqual([2, 2, 2, 2, 2]);
    expect(forecasts).toBe(10);
  });
});
