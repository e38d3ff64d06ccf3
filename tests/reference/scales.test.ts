import { expect, it } from 'vitest';
import { conditionScale, gaitScale } from '../../src/reference/scales.js';

it('begins and ends every scale where its name says', () => {
  for (const [name, { lowest, highest }] of [...Object.entries(gaitScale), ...Object.entries(conditionScale)])
    expect(name.endsWith(`-${lowest}-${highest}`)).toBe(true);
});

it('calls a cow lame from the published mark', () => {
  const marks = Object.values(gaitScale).map(({ name, lameFrom, severeFrom }) => [
    name,
    lameFrom,
    severeFrom,
  ]);
  expect(marks).toEqual([
    ['UK industry mobility score', 2, 3],
    ['Sprecher locomotion score', 3, 4],
    ['New Zealand dairy lameness score', 2, 3],
    ['US dairy welfare programme', 2, 3],
  ]);
});
