import { expect, it } from 'vitest';
import { conditionScale, gaitScale, walkOf } from '../../src/reference/scales.js';

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

it('distinguishes sound, the soundest score, from not lame, which is below the mark', () => {
  expect([0, 1, 2, 3].map((score) => walkOf('uk-0-3', score))).toEqual(['sound', 'not-lame', 'lame', 'lame']);
  expect([1, 2, 3, 5].map((score) => walkOf('sprecher-1-5', score))).toEqual(['sound', 'not-lame', 'lame', 'lame']); // prettier-ignore
  // On a scale of three there is nothing between the soundest score and lame.
  expect([1, 2, 3].map((score) => walkOf('us-1-3', score))).toEqual(['sound', 'lame', 'lame']);
});
