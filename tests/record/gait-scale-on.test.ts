import { expect, it } from 'vitest';
import { gaitScaleOn } from '../../src/record/gait-scale-on.js';

it('takes the period begun last, that day included', () => {
  const farm = {
    farm: 'Quernholt',
    'gait-scale': [
      { from: '2025-01-01', scale: 'uk-0-3' as const },
      { from: '2026-01-01', scale: 'sprecher-1-5' as const },
    ],
  };
  expect(
    ['2024-12-31', '2025-01-01', '2025-12-31', '2026-01-01'].map((day) => gaitScaleOn(farm, day)),
  ).toEqual([undefined, 'uk-0-3', 'uk-0-3', 'sprecher-1-5']);
});

it('holds one word always, and none never', () => {
  expect(gaitScaleOn({ farm: 'Quernholt', 'gait-scale': 'nz-0-3' }, '1990-01-01')).toBe('nz-0-3');
  expect(gaitScaleOn({ farm: 'Quernholt' }, '2026-01-01')).toBeUndefined();
});
