import { expect, it } from 'vitest';
import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import { closingsOf } from '../../src/healing/closing/closing-of-ulcer.js';
import type { Animal } from '../../src/record/animal.js';
import { animalStatement } from '../../src/words/compose-animal.js';
import { basisSentence, nextReadingSentence, outSentence } from '../../src/words/compose-regrowth.js';
import { wordsOf } from '../../src/reference/words.js';
import { cow, quernholt, visit, workOut } from '../schedule/a-case.js';

const today = '2026-06-10';
const words = wordsOf('en-GB');
const grow = (animal: Animal) =>
  growthOfAnimal(animal, growingConditions(quernholt), { today, prior: publishedPrior });
const say = (animal: Animal) =>
  animalStatement(
    words,
    animal,
    workOut(animal, today).standing,
    { growth: grow(animal), closings: closingsOf(animal, today) },
    today,
  );
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

it('a gap that grows: what it did, its range, her walk', () => {
  expect(say(growing)).toMatch(
    /^White line disease \(WL\), left hind, outer claw: The top of the gap has come down 10 mm since 7 April 2026, as horn should \(\d+ to \d+ mm expected\)\. It should be out between .+ and .+, most likely about .+\. She was lame: mobility score 2 on 2 June 2026\./,
  );
});

it('a gap never measured asks for a length and says nothing twice', () => {
  const told = say(cow([visit('2026-06-02', { found: { a: { state: 'open' } } })]));
  expect(told).toBe(
    'White line disease (WL), left hind, outer claw: Not measured. A ruler from the coronet to the top of the gap gives a date. Her walking has not been scored.',
  );
});

it('a closed case begins with its end and gives no date', () => {
  const told = say({ ...growing, episodes: [{ ended: '2026-06-04', result: 'sold' }] });
  expect(told).toMatch(/^Closed on 4 June 2026: sold\. /);
  expect(told).not.toMatch(/should be out/);
});

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
