import { expect, test } from 'vitest';
import { footMap } from '../../src/figure/foot-map.js';
import type { FootMapLesion } from '../../src/figure/foot-spots.js';
import { footShape, placeAside } from '../../src/figure/foot-sheet.js';
import { joinedSpans, sideBySide } from '../../src/figure/timeline-rows.js';
import { visitTimeline } from '../../src/figure/visit-timeline.js';
import { addDays } from '../../src/record/calendar-day.js';
import { claws, feet, sites, wallLines, type Claw, type Foot } from '../../src/record/words.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { foot, timeline } from './made-up-figures.js';
import { all, readSvg, textBoxes } from './read-svg.js';

const words = wordsOf('en-GB');
const textsOf = (svg: string) => textBoxes(readSvg(svg)).map(({ text }) => text);

test('the time line is to scale in days', () => {
  const svg = readSvg(visitTimeline(timeline, words).svg);
  const bars = all(svg)
    .filter(({ attributes }) => attributes.get('class') === 'block')
    .map(({ attributes }) => Number(/h([\d.]+)v/.exec(attributes.get('d')!)![1]));
  // 3 February to 15 March is 41 days, both in; 31 March to 26 May 57; 2 to 20 June 19.
  expect(bars[0]! / bars[1]!).toBeCloseTo(41 / 57, 2);
  expect(bars[2]! / bars[1]!).toBeCloseTo(19 / 57, 2);
});

function marksOfScore(block: 'on' | 'off' | 'unclear'): string[] {
  const only = {
    ...timeline,
    visits: [],
    gait: [{ date: '2026-03-03', score: 2, block }],
    blocks: [],
    wraps: [],
  };
  const svg = readSvg(visitTimeline({ ...only, withheld: [], vet: [], ranUp: [] }, words).svg);
  return all(svg).flatMap(({ attributes }) => attributes.get('class') ?? []).filter((mark) => ['solid', 'ring', 'half'].includes(mark)); // prettier-ignore
}

test('on the block hollow, off it filled, not known half a ring', () => {
  expect([marksOfScore('off'), marksOfScore('on'), marksOfScore('unclear')]).toEqual([
    ['solid'],
    ['ring'],
    ['ring', 'half'],
  ]);
});

test('a time line of any length and density is sound, and shows no row without anything in it', () => {
  for (const days of [1, 20, 140, 400, 2000, 5000])
    for (const step of [1, 9, 40]) {
      const dates = Array.from({ length: 30 }, (_, at) => addDays('2024-02-27', at * step));
      const dense = {
        ...timeline,
        from: '2024-02-27',
        to: addDays('2024-02-27', days),
        gait: dates.map((date, at) => ({
          date,
          score: at % 4,
          block: (['on', 'off', 'unclear'] as const)[at % 3]!,
        })),
        vet: dates.map((date) => ({ date, what: 'asked' as const })),
      };
      expect(complaints(visitTimeline(dense, words), timeline.id), `${days} days`).toEqual([]);
    }
  expect(complaints(visitTimeline(timeline, wordsOf('en-US')), timeline.id)).toEqual([]);
  expect(textsOf(visitTimeline({ ...timeline, wraps: [], vet: [] }, words).svg)).not.toContain('vet');
  const { rows } = visitTimeline(timeline, words).table;
  const days = new Set([...timeline.visits, ...timeline.gait, ...timeline.vet, ...timeline.ranUp].map(({ date }) => date)); // prettier-ignore
  expect(rows).toHaveLength(days.size + 3 + 2 + 2);
  expect(rows.filter(([day]) => day === '31 March 2026').map(([, , what]) => what)).toEqual([
    'visit; score 2, off the block; vet asked; gap a ran up',
    'block, left hind, inner claw',
    'wrap, left hind',
    'milk withheld',
    'meat withheld',
  ]);
});

test('every site of the format has its place in the drawn foot', () => {
  const { below, side } = footShape();
  const placed = [below.sites, below.both, side.sites, side.both].flatMap(Object.keys);
  expect(placed.sort()).toEqual([...sites].sort());
});

function xOf(of: 'LH' | 'RF', name: 'outer' | 'inner') {
  const texts = all(readSvg(footMap({ ...foot, foot: of, lesions: [] }, words).svg));
  return Number(texts.find(({ text }) => text === name)!.attributes.get('x'));
}

test('the outer claw of a left foot lies on the right when seen from below, of a right foot on the left', () => {
  expect(xOf('LH', 'outer')).toBeGreaterThan(xOf('LH', 'inner'));
  expect(xOf('RF', 'outer')).toBeLessThan(xOf('RF', 'inner'));
});

const gap = { line: 'heel', wallMm: 42, topMm: 30, firstMm: 12 } as const;
const white = { lesion: 'a', name: 'White line disease (WL)', claw: 'outer', healed: false } as const;
const circlesOf = (lesion: FootMapLesion, of: Foot = 'LH') =>
  all(readSvg(footMap({ id: 'f-x', foot: of, lesions: [lesion] }, words).svg))
    .filter(({ name }) => name === 'circle')
    .map(({ attributes }) => ({
      mark: attributes.get('class'),
      x: Number(attributes.get('cx')),
      y: Number(attributes.get('cy')),
    }));

test('a measured gap is on its line as far down as its top has come, hollow where it was first', () => {
  const marks = circlesOf({ ...white, gap });
  const now = marks.find(({ mark }) => mark === 'up')!;
  const first = marks.find(({ mark }) => mark === 'gone')!;
  const [from, to] = footShape().side.wallLines['heel']!.map((point) => placeAside('LH', 'outer', point));
  expect((now.y - from![1]) / (to![1] - from![1])).toBeCloseTo(30 / 42, 1);
  expect((first.y - from![1]) / (to![1] - from![1])).toBeCloseTo(12 / 42, 1);
  expect(footMap({ id: 'f-x', foot: 'LH', lesions: [{ ...white, gap }] }, words).table.rows[0]!.slice(-2)).toEqual(['12', '30']); // prettier-ignore
});

test('a lesion that is no longer there is dotted and hollow, and said to be', () => {
  const healed = { ...white, site: 'sole', healed: true } as const;
  expect(circlesOf(healed).map(({ mark }) => mark)).toEqual(['gone']);
  const { notes, description } = footMap({ id: 'f-x', foot: 'LH', lesions: [healed] }, words);
  expect(description).toContain('no longer there');
  expect(notes.join(' ')).toContain('where it was');
  expect(
    footMap({ id: 'f-x', foot: 'LH', lesions: [{ ...healed, healed: false }] }, words).notes.join(' '),
  ).not.toContain('where it was');
});

test('the side of a claw is drawn as it is seen: a right foot is the mirror image of a left one', () => {
  const at = (of: Foot, claw: Claw) => circlesOf({ ...white, claw, gap: { ...gap, line: 'dorsal' } }, of).find(({ mark }) => mark === 'up')!.x; // prettier-ignore
  expect(at('LH', 'outer')).toBeCloseTo(at('RH', 'inner'), 1);
  expect(at('LH', 'outer')).toBeLessThan(at('LH', 'inner'));
});

test('days that lie close are drawn side by side in order, moved as little as need be', () => {
  expect(sideBySide([10, 12, 50], 10, 0, 60)).toEqual([6, 16, 50]);
  expect(sideBySide([0, 1, 2], 10, 0, 60)).toEqual([0, 10, 20]);
  expect(sideBySide([59, 58], 10, 0, 60)).toEqual([60, 50]);
  expect(sideBySide([], 10, 0, 60)).toEqual([]);
  expect(sideBySide([1, 2, 3], 10, 0, 15)).toBeUndefined();
});

test('days withheld twice are one bar, days apart are two, and a bar without an end takes all after it', () => {
  const span = (from: string, to?: string) => ({ from, ...(to ? { to } : {}) });
  expect(joinedSpans([span('2026-03-03', '2026-03-09'), span('2026-03-01', '2026-03-04')])).toEqual([span('2026-03-01', '2026-03-09')]); // prettier-ignore
  expect(joinedSpans([span('2026-03-01', '2026-03-09'), span('2026-03-03', '2026-03-04')])).toEqual([span('2026-03-01', '2026-03-09')]); // prettier-ignore
  expect(joinedSpans([span('2026-03-01', '2026-03-04'), span('2026-03-05', '2026-03-06')])).toHaveLength(1);
  expect(joinedSpans([span('2026-03-01', '2026-03-04'), span('2026-03-06', '2026-03-07')])).toHaveLength(2);
  expect(joinedSpans([span('2026-03-01'), span('2026-04-01', '2026-04-07')])).toEqual([span('2026-03-01')]);
});

test('a foot full of lesions keeps their names apart', () => {
  for (const of of feet)
    for (const size of [1, 16])
      for (const count of [0, 1, 3, 9]) {
        const lesions = Array.from({ length: count }, (_, at) => ({
          lesion: 'abcdefghijklmnop'.slice(at % 4, (at % 4) + size),
          name: 'White line disease (WL)',
          claw: claws[at % 2]!,
          site: sites[(at * 5) % sites.length]!,
          healed: at % 3 === 2,
          ...(at % 2 ? { gap: { line: wallLines[at % 4]!, wallMm: 60, topMm: 5 * at, firstMm: 3 } } : {}),
        }));
        expect(
          complaints(
            footMap(
              { id: 'f-x', foot: of, lesions: [...lesions, { lesion: 'z', name: 'x', healed: false }] },
              words,
            ),
            'f-x',
          ),
        ).toEqual([]);
      }
});

test('same input, same bytes', () => {
  expect(visitTimeline(structuredClone(timeline), words)).toEqual(visitTimeline(timeline, words));
  expect(footMap(structuredClone(foot), words)).toEqual(footMap(foot, words));
});
