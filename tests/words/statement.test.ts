import { expect, it } from 'vitest';
import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import { basisSentence, nextReadingSentence, outSentence } from '../../src/words/compose-regrowth.js';
import { wordsOf } from '../../src/reference/words.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';

const today = '2026-06-10';
const words = wordsOf('en-GB');
const grow = (animal: Animal) =>
  growthOfAnimal(animal, growingConditions(quernholt), { today, prior: publishedPrior });
const read = (top: number) => ({
  state: 'open' as const,
  top,
  wall: 60,
  tool: 'ruler' as const,
  'top-found': 'seen' as const,
});
const growing = cow([
  visit('2026-04-07', { gait: 2, found: { a: read(12) } }),
  visit('2026-06-02', { gait: 2, found: { a: read(22) } }),
]);

it('a date and its basis carry range, readings, tool, wall, prior and limits', () => {
  const growth = grow(growing);
  const [line] = growth.lesions;
  const told = `${outSentence(words, line!, today)} ${basisSentence(words, growth, line!)}`;
  for (const part of [
    /between .+ and .+/,
    /2 readings \(ruler\)/,
    /her own wall of 60 mm, measured on 2 June 2026/,
    /published growth rates/,
    /An estimate from averages and these readings; not a diagnosis\.$/,
  ])
    expect(told).toMatch(part);
});

it('the next reading is said with its range, and not once it should be out', () => {
  const [line] = grow(growing).lesions;
  expect(nextReadingSentence(words, line!, '2026-06-30')).toMatch(
    /^On 30 June 2026 the top should read \d+ to \d+ mm\. Below \d+ mm it may have run up/,
  );
  expect(nextReadingSentence(words, line!, '2028-06-30')).toBe('');
});
