import { describe, expect, it } from 'vitest';
import { findingsOf } from './findings-of.js';

const inFile = (animalSlug: string, number: string): string[] =>
  findingsOf(`animal: ${JSON.stringify(number)}`, { animalSlug });

describe('the number of an animal and the name of her file', () => {
  it.each([
    ['2086', '2086'],
    ['2086-2', '2086'],
    ['2086-bella', '2086'],
    ['bella-7', 'Bella 7'],
    ['7-b', '7/B.'],
    ['0312', '0312'],
    ['zoe', 'Zoë'],
  ])('%s.md may hold number %s', (slug, number) => {
    expect(inFile(slug, number)).toEqual([]);
  });

  it.each([
    ['2086', '9999'],
    ['2086', '20'],
    ['2086', '2086-2'],
    ['312', '0312'],
    ['2086-2', '208'],
  ])('%s.md with number %s is remarked upon', (slug, number) => {
    expect(inFile(slug, number)).toEqual(['note number-unlike-file-name']);
  });
});
