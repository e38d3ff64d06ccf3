import { describe, expect, test } from 'vitest';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';
import type { CaseWork } from '../../src/schedule/case-work.js';
import { caseEntries, readingToTake } from '../../src/schedule/reading-to-take.js';
import { lesionsUnderNotice, workOutCase } from '../../src/schedule/work-out-case.js';
import { cow, quernholt, visit } from './a-case.js';

const lesions: Animal['lesions'] = {
  a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
  b: { code: 'WL', foot: 'LH', claw: 'inner', line: 'heel' },
  c: { code: 'WL', foot: 'RH', claw: 'outer', line: 'abaxial' },
  u: { code: 'SU', foot: 'LH', claw: 'outer' },
};

describe('which lesions a notice covers', () => {
  const sameDay = { standing: true, urgency: 'same-day' } as const;
  test.each<[string, Parameters<typeof lesionsUnderNotice>[1], string[]]>([
    ['on a lesion: that lesion', [{ ...sameDay, lesion: 'a', foot: 'LH' }], ['a']],
    ['on a foot: all of the foot', [{ ...sameDay, foot: 'LH' }], ['a', 'b', 'u']],
    ['on the animal: all', [sameDay], ['a', 'b', 'c', 'u']],
    ['that stops work: all the more', [{ standing: true, urgency: 'stop-work' }], ['a', 'b', 'c', 'u']],
    [
      'two together',
      [
        { ...sameDay, lesion: 'c' },
        { ...sameDay, lesion: 'b' },
      ],
      ['b', 'c'],
    ],
    ['of less haste: none', [{ standing: true, urgency: 'notice', foot: 'LH' }], []],
    ['that has fallen: none', [{ ...sameDay, standing: false }], []],
  ])('%s', (_, notices, covered) => {
    expect([...lesionsUnderNotice({ lesions }, notices)]).toEqual(covered);
  });
});

const found = (top: number, width: number): NonNullable<Visit['found']> => ({
  a: { state: 'open', top, wall: 50, tool: 'ruler', 'top-found': 'seen' },
  c: { state: 'open', top, wall: 60, tool: 'ruler', 'top-found': 'seen' },
  u: { state: 'open', width, tool: 'ruler' },
});

function worked(second: Partial<Visit>): CaseWork {
  const animal = cow(
    [visit('2026-05-05', { found: found(20, 20) }), visit('2026-06-02', { found: found(26, 12), ...second })],
    { lesions },
  );
  const source = { file: 'cases/quernholt/2041.md', placeOf: () => ({ line: 1, column: 1 }) };
  const record = { slug: '2041', animal, narrative: '', source };
  const farm = { slug: 'quernholt', farm: quernholt, narrative: '', source, cases: [record] };
  return workOutCase(farm, record, { business: {}, today: '2026-06-03', prior: publishedPrior });
}

const whys = ({ growth, closings }: CaseWork) =>
  [...growth.lesions, ...closings].map(({ lesion, forecast }) => [
    lesion,
    forecast.outcome === 'none' ? forecast.why : 'date',
  ]);

test('a foot swollen above the coronet and hot: no date on that foot, of walls and of ulcers; the other foot keeps its own', () => {
  const work = worked({ feet: { LH: { signs: ['heat', 'swollen coronet'] } } });
  expect(work.notices.filter(({ standing, urgency }) => standing && urgency === 'same-day')).not.toEqual([]);
  expect(whys(work)).toEqual([
    ['a', 'same-day-notice'],
    ['b', 'same-day-notice'],
    ['c', 'date'],
    ['u', 'same-day-notice'],
  ]);
  expect(work.closings[0]!.nextReading('2026-06-30')).toBeUndefined();
  expect(work.growth.case.outcome).toBe('none');
  const farm = {
    slug: 'quernholt',
    farm: quernholt,
    narrative: '',
    source: work.record.source,
    cases: [work.record],
  };
  const [a, c] = caseEntries(farm, work, '2026-06-03');
  expect(a!.out).toBeUndefined();
  expect(a!.outAfterDays).toBeDefined();
  expect(c!.out).toBeDefined();
  const toTake = readingToTake({ ...quernholt, 'next-visit': '2026-06-30' }, work, '2026-06-03');
  expect(toTake?.lesion).not.toBe('a');
});

test('without a sign every one that was measured has a date, and their status is the same with and without', () => {
  expect(whys(worked({}))).toEqual([
    ['a', 'date'],
    ['b', 'no-length'],
    ['c', 'date'],
    ['u', 'date'],
  ]);
  const words = ({ standing }: CaseWork) => standing.lesions.map(({ standing: word }) => word);
  expect(words(worked({ feet: { LH: { signs: ['heat', 'swollen coronet'] } } }))).toEqual(words(worked({})));
});
