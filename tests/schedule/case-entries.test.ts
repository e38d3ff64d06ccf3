import { expect, it } from 'vitest';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { caseEntries } from '../../src/schedule/reading-to-take.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { farmWith } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from './a-case.js';

const today = '2026-06-10';
const read = (top: number) => ({ state: 'open' as const, top, tool: 'ruler' as const });
const farm = farmWith(
  'quernholt',
  {
    '2041': cow(
      [visit('2026-05-05', { gait: 2, found: { a: read(10), b: read(0) }, recheck: '2026-06-23' })],
      {
        lesions: {
          a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
          b: { code: 'WL', foot: 'RH', claw: 'outer', line: 'abaxial' },
          c: { code: 'DD', foot: 'RH' },
        },
      },
    ),
  },
  quernholt,
);
const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
const [a, b, ...more] = caseEntries(farm, work, today);

it('has one entry for each wall gap with a reading, each with its own standing', () => {
  expect(more).toEqual([]);
  expect([a!.standing.word, b!.standing.word]).toEqual(['open', 'at-coronet']);
  expect(a!.standing.evidence).toEqual(work.standing.lesions[0]!.evidence);
});

it('repeats on each what is due and what is for the vet', () => {
  expect(a!.due).toEqual(work.due);
  expect(b!.due).toEqual(work.due);
  expect(b!.notices.map(({ rule, lesion }) => [rule, lesion])).toContainEqual(['at-coronet', 'b']);
  expect(a!.notices).toEqual(b!.notices);
});

it('has the reading worth taking only where the date it narrows is', () => {
  expect(a!.worthMeasuring).toMatchObject({ lesion: 'a', on: '2026-06-23' });
  expect(b!.worthMeasuring).toBeUndefined();
});

it('loses nothing in JSON', () => {
  expect(JSON.parse(JSON.stringify(a))).toEqual(a);
});
