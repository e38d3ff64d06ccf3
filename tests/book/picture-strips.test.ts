import { expect, test } from 'vitest';
import { composePictures } from '../../src/book/picture-section.js';
import { pictureStrips } from '../../src/book/picture-strips.js';
import { animal } from '../../src/record/animal.js';
import { wordsOf } from '../../src/reference/words.js';
import { fileURLToPath } from 'node:url';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { plain } from '../words/plain.js';

const today = '2026-06-16';
const demo = fileURLToPath(new URL('../../cases', import.meta.url));

interface Shot {
  file: string;
  view?: string;
  when?: string;
  claw?: string;
}

function cow(days: Record<string, Shot[]>, more: object = {}) {
  return animal.parse({
    casefile: 1,
    animal: '31',
    lesions: {
      a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
      b: { code: 'WL', foot: 'LH', claw: 'inner', line: 'heel' },
    },
    visits: Object.entries(days).map(([date, photos]) => ({
      date,
      by: 'Orla Venn',
      kind: 'recheck',
      found: {
        a: { state: 'open', top: 17, wall: 43, width: 9, tool: 'ruler' },
        b: { state: 'open', top: 30, tool: 'ruler' },
      },
      photos: photos.map((shot) => ({ foot: 'LH', claw: 'outer', view: 'sole', when: 'after', ...shot })),
    })),
    ...more,
  });
}

const layout = (one: ReturnType<typeof cow>) =>
  pictureStrips(one, today).map(({ view, claw, moment, days }) => [
    [claw, view, moment].join(' '),
    days.map(
      ({ date, place, photos }) => `${date} ${place ?? '-'} ${photos.map(({ file }) => file).join('+')}`,
    ),
  ]);

test('after the trim goes with after the trim; a before is beside its after, else in a strip of its own', () => {
  const one = cow({
    '2026-01-06': [{ file: 'a1' }, { file: 'b1', when: 'before' }],
    '2026-02-03': [{ file: 'b2', when: 'before' }],
    '2026-03-03': [{ file: 'a3' }, { file: 'heel', view: 'heel' }, { file: 'inner', claw: 'inner' }],
  });
  expect(layout(one)).toEqual([
    ['outer sole after', ['2026-01-06 first b1+a1', '2026-03-03 latest a3']],
    ['outer sole before', ['2026-02-03 latest b2']],
    ['outer heel after', ['2026-03-03 latest heel']],
    ['inner sole after', ['2026-03-03 latest inner']],
  ]);
});

const six = ['2026-01-06', '2026-02-03', '2026-03-03', '2026-03-31', '2026-04-28', '2026-05-26'];
const sixDays = Object.fromEntries(six.map((day) => [day, [{ file: day }]]));

test('between first and latest comes the picture of the day the case turned, or next after it', () => {
  const places = (turned?: string) =>
    pictureStrips(cow(sixDays), today, turned)[0]!.days.flatMap(({ date, place }) =>
      place === undefined ? [] : [[date, place]],
    );
  const days = pictureStrips(cow(sixDays), today)[0]!.days.map(({ date }) => date);
  const [first, second, third, , fifth, sixth] = days;
  expect(places()).toEqual([
    [first, 'first'],
    [fifth, 'previous'],
    [sixth, 'latest'],
  ]);
  expect(places(third)).toEqual([
    [first, 'first'],
    [third, 'turned'],
    [sixth, 'latest'],
  ]);
  // No picture between the turn and the latest: the one before the latest.
  expect(places(sixth)).toEqual(places());
  expect(places(first)).toEqual([
    [first, 'first'],
    [second, 'turned'],
    [sixth, 'latest'],
  ]);
});

test('first, previous and latest are large, the rest are folded, each with its days', () => {
  const section = plain(composePictures(wordsOf('en-GB'), 'x', cow(sixDays), today))!;
  const [strip] = section.strips;
  expect(strip).toMatchObject({ heading: 'Left hind, outer claw: sole, after the trim', columns: 3 });
  expect(strip!.large.map(({ place, day, since }) => [place, day, since])).toEqual([
    ['First', '6 January 2026', undefined],
    ['Previous', '28 April 2026', '28 days after the one before; 112 days after the first'],
    ['Latest', '26 May 2026', '28 days after the one before; 140 days after the first'],
  ]);
  expect(strip!.more!.days.map(({ day, since }) => [day, since])).toEqual([
    ['3 February 2026', '28 days after the first'],
    ['3 March 2026', '28 days after the one before; 56 days after the first'],
    ['31 March 2026', '28 days after the one before; 84 days after the first'],
  ]);
});

test('beneath each is what was measured that day on that claw, and not on the other', () => {
  const section = plain(composePictures(wordsOf('en-GB'), 'x', cow(sixDays), today))!;
  expect(section.strips[0]!.large[0]!.measured).toEqual([
    'a, white line disease: open; top 17 mm; wall 43 mm; 9 mm wide',
  ]);
});

test('the first is the first of this lameness episode, and older ones count no days from it', () => {
  const one = cow(sixDays, {
    episodes: [
      { 'lame-since': '2026-01-02', ended: '2026-02-20', result: 'sound' },
      { 'lame-since': '2026-02-27' },
    ],
  });
  const [strip] = pictureStrips(one, today);
  expect(strip!.days.map(({ place, sinceFirst }) => [place, sinceFirst])).toEqual([
    [undefined, undefined],
    [undefined, undefined],
    ['first', undefined],
    [undefined, 28],
    ['previous', 56],
    ['latest', 84],
  ]);
});

test('where a picture is not there or not asked after, its file, words and the reason are at its place', () => {
  const one = cow({ '2026-01-06': [{ file: 'left' }, { file: 'broken' }, { file: 'gone' }] });
  const shots = plain(
    composePictures(wordsOf('en-GB'), 'x', one, today, {
      pictures: {
        byFile: new Map([
          ['left', { kind: 'left-out' }],
          ['broken', { kind: 'refused', why: 'broken' }],
          ['gone', { kind: 'missing' }],
        ]),
        longestPx: 360,
        madeSmaller: true,
        maxMb: 3,
      },
    }),
  )!.strips[0]!.large[0]!.shots;
  expect(shots.map(({ file, instead }) => [file, instead])).toEqual([
    ['File: left', expect.stringContaining('Left out to keep the book under 3 MB.')],
    ['File: broken', expect.stringContaining('could not be read: the file is damaged')],
    ['File: gone', expect.stringContaining('Missing picture')],
  ]);
});

test('every picture of the demo has exactly one place', () => {
  const cases = readPractice(nodeCaseFiles, demo, { today }).practice.farms.flatMap((farm) => farm.cases);
  const named = cases.flatMap((one) => one.animal.visits.flatMap(({ photos }) => photos ?? []));
  const placed = cases.flatMap((one) =>
    pictureStrips(one.animal, today).flatMap(({ days }) => days.flatMap(({ photos }) => photos)),
  );
  expect(named.length).toBeGreaterThan(15);
  expect(placed.map(({ file }) => file).sort()).toEqual(named.map(({ file }) => file).sort());
});
