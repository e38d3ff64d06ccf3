import { expect, test } from 'vitest';
import { growingConditions, seasonFrom } from '../../src/growth/growth-line.js';
import { dayNumber } from '../../src/record/calendar-day.js';

test('one herd map holds always; none is unknown', () => {
  const always = growingConditions({ herd: { from: '2026-01-01', housing: 'mixed' }, hemisphere: 'south' });
  expect(always.housingOn('2020-01-01')).toBe('mixed');
  expect(always.hemisphere).toBe('south');
  expect(growingConditions({}).housingOn('2020-01-01')).toBeUndefined();
});

test('of a list the latest begun counts; before the first nothing is known', () => {
  const { housingOn } = growingConditions({
    herd: [
      { from: '2026-04-15', housing: 'grazed' },
      { from: '2025-10-20', housing: 'housed' },
      { from: '2026-10-20' },
    ],
  });
  expect(housingOn('2025-10-19')).toBeUndefined();
  expect(housingOn('2025-10-20')).toBe('housed');
  expect(housingOn('2026-04-14')).toBe('housed');
  expect(housingOn('2026-04-15')).toBe('grazed');
  expect(housingOn('2026-10-20')).toBeUndefined();
});

test('without housing or without hemisphere no season is supposed: a month is a month all year', () => {
  const grazed = { herd: { housing: 'grazed' } } as const;
  for (const farm of [{}, grazed, { hemisphere: 'north' }] as const)
    for (const day of ['2026-04-01', '2026-10-01'])
      expect(seasonFrom(dayNumber(day), growingConditions(farm)).monthsAfter(60.875)).toBe(2);
  const spring = seasonFrom(dayNumber('2026-04-01'), growingConditions({ ...grazed, hemisphere: 'north' }));
  expect(spring.monthsAfter(60.875)).toBeGreaterThan(2.1);
});
