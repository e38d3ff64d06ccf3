import { expect, it } from 'vitest';
import { checkBetweenFiles } from '../../src/casefile/check/check-between-files.js';
import { animalOf } from './findings-of.js';

const between = (earlier: string, later: string) =>
  checkBetweenFiles(
    [earlier, later].map((keys, i) => ({
      slug: i === 0 ? '2086' : '2086-2',
      file: `cases/quernholt/2086${i === 0 ? '' : '-2'}.md`,
      animal: animalOf(keys),
    })),
  ).map(({ severity, id, animalSlug }) => `${severity} ${id} ${animalSlug}`);

const oldCow = 'tag: UK 000123 402086';
const newCow = 'tag: UK 000123 502917';
const ended = (result: string) =>
  `episodes: [{ lame-since: 2024-01-06, ended: 2024-09-14, result: ${result} }]`;

it('lets a new animal take the number of one that has left', () => {
  for (const result of ['sold', 'culled', 'moved', 'died', 'put down', 'lost to follow-up'])
    expect(between(`${oldCow}\n${ended(result)}`, newCow)).toEqual([]);
  expect(between(`${oldCow}\n${ended('sound')}`, newCow)).toEqual([
    'error record/number-with-other-tag 2086-2',
  ]);
});

it('takes a cow without the key of episodes as one with an open episode', () => {
  expect(between('', 'episodes: []')).toEqual(['error record/number-twice 2086-2']);
});

it('compares tags however they are spaced, and different numbers without marks not at all', () => {
  expect(between(oldCow, 'animal: "2091"\ntag: uk000123402086')).toEqual(['error record/tag-twice 2086-2']);
  expect(between(oldCow, `animal: "2091"\n${newCow}`)).toEqual([]);
  expect(between('', 'animal: "2091"')).toEqual([]);
  expect(between(`${oldCow}\n${ended('moved')}`, `animal: "2091"\n${oldCow}`)).toEqual([]);
});
