import { expect, test } from 'vitest';
import { levelOf, stagesOnTime, type StagesOnTime } from '../../src/figure/stages-on-time.js';
import { addDays } from '../../src/record/calendar-day.js';
import { ddStages } from '../../src/record/words.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { timeline } from './made-up-figures.js';
import { readSvg, textBoxes } from './read-svg.js';

const words = wordsOf('en-GB');
const paper = { widthPx: 703, tallestPx: 190, of: 'paper' } as const;
const phone = { widthPx: 328, tallestPx: 160, of: 'phone' } as const;
const of = (looks: StagesOnTime['looks'], more: Partial<StagesOnTime> = {}): StagesOnTime => ({
  id: 'x',
  lesion: 'a',
  foot: 'RH',
  looks,
  today: '2026-06-30',
  ...more,
});

test('M1, M2 and M4.1 are active, M3 and M4 healing or chronic, M0 sound', () => {
  const levels = Object.fromEntries(ddStages.map((stage) => [stage, levelOf(stage)]));
  expect(levels).toEqual({
    M0: 'sound',
    M1: 'active',
    M2: 'active',
    M3: 'chronic',
    M4: 'chronic',
    'M4.1': 'active',
  });
});

test('an active look is above a chronic one, that above a sound one, each under its stage', () => {
  const figure = stagesOnTime(
    of([
      { date: '2026-03-01', stage: 'M2' },
      { date: '2026-04-01', stage: 'M4' },
      { date: '2026-05-01', stage: 'M0' },
    ]),
    words,
    paper,
  );
  const boxes = textBoxes(readSvg(figure.svg));
  const y = (stage: string): number => boxes.find(({ text }) => text === stage)!.y;
  expect(y('M2')).toBeLessThan(y('M4'));
  expect(y('M4')).toBeLessThan(y('M0'));
  expect(figure.table.rows).toEqual([
    ['1 March 2026', 'M2, raw ulcer'],
    ['1 April 2026', 'M4, long-standing thick skin'],
    ['1 May 2026', 'M0, normal skin'],
  ]);
});

test('drawings of any number of looks are sound, on paper and on a phone', () => {
  for (const room of [paper, phone])
    for (const count of [1, 2, 6, 16])
      for (const apart of [3, 28]) {
        const looks = Array.from({ length: count }, (_, at) => ({
          date: addDays('2026-06-01', (at - count) * apart),
          stage: ddStages[at % ddStages.length]!,
        }));
        const figure = stagesOnTime(of(looks, { beneath: timeline, lift: '2026-07-20' }), words, room);
        expect(complaints(figure, `x-${room.of}`), `${room.of} ${count} every ${apart}`).toEqual([]);
      }
});
