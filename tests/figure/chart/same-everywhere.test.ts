import { afterAll, expect, test } from 'vitest';
import { gaitRoundChart } from '../../../src/figure/chart/gait-round-chart.js';
import { seasonChart } from '../../../src/figure/chart/season-chart.js';
import { wordsOf } from '../../../src/reference/words.js';
import { ratesOf, roundsOf } from './made-up-herd.js';

const before = process.env['TZ'];
afterAll(() => {
  if (before === undefined) delete process.env['TZ'];
  else process.env['TZ'] = before;
});

test('a chart has the same bytes in every time zone, the days the clocks change among its days', () => {
  const words = wordsOf('en-GB');
  const drawnIn = (zone: string) => {
    process.env['TZ'] = zone;
    const hours = new Date('2026-01-01T00:00:00Z').getTimezoneOffset() / 60;
    return {
      hours,
      svg: gaitRoundChart('f-g', roundsOf(), words).svg + seasonChart('f-s', ratesOf(), words).svg,
    };
  };
  const [auckland, newYork, utc] = ['Pacific/Auckland', 'America/New_York', 'UTC'].map(drawnIn);
  expect([auckland!.hours, newYork!.hours, utc!.hours], 'the zones do differ').toEqual([-13, 5, 0]);
  expect(auckland!.svg).toBe(utc!.svg);
  expect(newYork!.svg).toBe(utc!.svg);
});
