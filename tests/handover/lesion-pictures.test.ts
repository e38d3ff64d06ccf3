import { expect, test } from 'vitest';
import { latestPictures } from '../../src/handover/lesion-pictures.js';
import type { Photo } from '../../src/record/visit.js';
import { cow, visit } from '../herd/invented-herd.js';

const photo = (file: string, more: Partial<Photo>): Photo => ({ file, view: 'sole', ...more });
const lesions = {
  a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
  b: { code: 'SU', foot: 'LH', claw: 'inner' },
  c: { code: 'DD', foot: 'RH' },
  d: { code: 'SU', foot: 'RF', claw: 'outer' },
} as const;
const named = [{ lesion: 'a' }, { lesion: 'b' }, { lesion: 'c' }, { lesion: 'd' }];

function latestOf(...visits: [string, Photo[]][]) {
  const animal = cow(
    '1',
    visits.map(([date, photos]) => visit(date, { photos })),
    { lesions },
  );
  return latestPictures(animal, named, '2026-06-16').map(
    ({ lesion, photo: { file } }) => `${lesion} ${file}`,
  );
}

test('the latest of each lesion’s claw, and of one day the one after the trim', () => {
  expect(
    latestOf(
      ['2026-03-03', [photo('old.jpg', { foot: 'LH', claw: 'outer', when: 'after' })]],
      [
        '2026-05-26',
        [
          photo('after.jpg', { foot: 'LH', claw: 'outer', when: 'after' }),
          photo('before.jpg', { foot: 'LH', claw: 'outer', when: 'before' }),
          photo('inner.jpg', { foot: 'LH', claw: 'inner', when: 'after' }),
        ],
      ],
      ['2026-05-27', [photo('skin.jpg', { foot: 'RH', view: 'heel' })]],
    ),
  ).toEqual(['a after.jpg', 'b inner.jpg', 'c skin.jpg']);
});

test('a picture of the whole foot serves a lesion of either claw, and appears once', () => {
  expect(latestOf(['2026-05-26', [photo('foot.jpg', { foot: 'LH', view: 'whole foot' })]])).toEqual([
    'a foot.jpg',
  ]);
});

test('none after the day, none of another foot', () => {
  expect(latestOf(['2026-07-01', [photo('later.jpg', { foot: 'LH', claw: 'outer' })]])).toEqual([]);
  expect(latestOf(['2026-05-01', [photo('lf.jpg', { foot: 'LF', claw: 'outer' })]])).toEqual([]);
});
