import { expect, test } from 'vitest';
import { advanceBetween } from '../../../src/healing/closing/closing-of-ulcer.js';

const round = (mm: number) => ({ lengthMm: mm, widthMm: mm });

test('a round ulcer: just what the radius lost', () => {
  expect(advanceBetween(round(20), round(14), 14)).toBeCloseTo(3 / 14, 12);
  expect(advanceBetween(round(14), round(20), 14)).toBeCloseTo(-3 / 14, 12);
  expect(advanceBetween(round(20), round(0), 28)).toBeCloseTo(10 / 28, 12);
});

// Semi-axes 10 and 5, then 7 and 2. Areas 157.0796327 and 43.9822972; perimeters by Ramanujan 48.4422411 and 30.5017875.
//   (157.0796327 − 43.9822972) / (½ · 78.9440286) / 14 = 2.8652535 / 14
test('a long ulcer', () => {
  expect(advanceBetween({ lengthMm: 20, widthMm: 10 }, { lengthMm: 14, widthMm: 4 }, 14)).toBeCloseTo(
    2.8652535 / 14,
    7,
  );
});

test('length and width may change places; twice the lengths, twice the advance', () => {
  const [before, now] = [
    { lengthMm: 18, widthMm: 11 },
    { lengthMm: 13, widthMm: 8 },
  ];
  const turned = ({ lengthMm, widthMm }: typeof before) => ({ lengthMm: widthMm, widthMm: lengthMm });
  const twice = ({ lengthMm, widthMm }: typeof before) => ({ lengthMm: 2 * lengthMm, widthMm: 2 * widthMm });
  const plain = advanceBetween(before, now, 21);
  expect(advanceBetween(turned(before), turned(now), 21)).toBeCloseTo(plain, 12);
  expect(advanceBetween(twice(before), twice(now), 21)).toBeCloseTo(2 * plain, 12);
});
