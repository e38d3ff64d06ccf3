import { expect, test } from 'vitest';
import { copperChart } from '../../../src/figure/chart/copper-chart.js';
import type { ChartFigure } from '../../../src/figure/chart/chart-axis.js';
import { gaitRoundChart } from '../../../src/figure/chart/gait-round-chart.js';
import { healingChart, type HealingChartInput, isDrawn } from '../../../src/figure/chart/healing-chart.js';
import { seasonChart } from '../../../src/figure/chart/season-chart.js';
import { timeToEvent } from '../../../src/herd/time-to-event.js';
import { wordsOf } from '../../../src/reference/words.js';
import { complaints } from '../complaints.js';
import { all, readSvg, textBoxes } from '../read-svg.js';
import { ratesOf, roundsOf } from './made-up-herd.js';

const words = wordsOf('en-GB');

/** Days (after, by] of 44 cases, four of each: two boxes with a level between, one exact day, some not yet. */
const times = [[0, 14], [0, 14], [7, 21], [28, 42], [28, 42], [35, 49], [56, 56], [60, Infinity], [70, Infinity], [80, Infinity], [90, Infinity]]; // prettier-ignore
const estimated = timeToEvent(
  [...times, ...times, ...times, ...times].map(([after, by], at) => ({
    farm: 'quernholt',
    slug: `${at}`,
    animal: `${at}`,
    from: '2026-01-01',
    days: { after: after!, by: by! },
  })),
);
const curve = estimated.curve!;
/** A curve of the test's own, so that it can say what its bounds are. */
const bounded = {
  boxes: [
    { after: 0, by: 14, mass: 0.2 },
    { after: 14, by: 56, mass: 0.4 },
  ],
  knownTo: 56,
  bounds: [
    { day: 14, lower: 0.05, upper: 0.5 },
    { day: 56, lower: 0.2, upper: 0.9 },
  ],
};
const healing = (curves: readonly HealingChartInput['curves'][number]['curve'][]) =>
  healingChart(
    {
      id: 'f-h',
      what: 'healed',
      title: 'Time to healed: sole ulcer (SU)',
      curves: curves.map((one, at) => ({ name: `Whose ${at}`, basis: '11 lesions', curve: one })),
    },
    words,
  );
const copper = [
  { name: 'bluestone, from 1 April 2026', kgPerHectare: 1.5, years: '26 to 64' },
  {
    name: 'a name that is far too long '.repeat(8),
    kgPerHectare: 0.25,
    years: '104 or more',
    takenAs: 'anhydrous' as const,
  },
];

const drawn: [string, ChartFigure][] = [
  ['f-s', seasonChart('f-s', ratesOf(), words)],
  ['f-n', seasonChart('f-n', ratesOf({}), words)],
  ['f-h', healing([curve, bounded])],
  ['f-h', healing([curve])],
  ['f-g', gaitRoundChart('f-g', roundsOf(), words)],
  ['f-c', copperChart('f-c', copper, words)],
];

test('every chart is sound: named, its ids its own, no text on another or cut off, no place that is no number', () => {
  for (const [id, chart] of drawn) {
    const table = { caption: '', columns: [], rows: [] };
    expect(complaints({ ...chart, table }, id), chart.title).toEqual([]);
    expect(chart.svg).not.toMatch(/NaN|Infinity|undefined/);
    expect(chart.svg.length, 'small').toBeLessThan(10_000);
    expect(chart.notes.length).toBeGreaterThan(0);
  }
});

test('two charts of one drawing share no id', () => {
  const twins = all(readSvg(drawn[2]![1].svg)).flatMap(({ attributes }) => attributes.get('id') ?? []);
  expect(new Set(twins).size).toBe(twins.length);
});

/** Places of corners, from the `d` of a path. */
function corners(shape: string): [number, number][] {
  return [...shape.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
}

const elementsOf = (chart: ChartFigure) => all(readSvg(chart.svg));
const shapesOf = (chart: ChartFigure, mark: string) =>
  elementsOf(chart).flatMap(({ attributes }) =>
    attributes.get('class') === mark || attributes.get('fill') === mark ? (attributes.get('d') ?? []) : [],
  );

/** From px back to a value, by the words along an axis: the first and the last that are numbers. */
function axisOf(chart: ChartFigure, side: 'left' | 'foot', among: (x: number) => boolean = () => true) {
  const ticks = elementsOf(chart)
    .filter(
      ({ name, attributes }) =>
        name === 'text' && attributes.get('class') === (side === 'left' ? 's end' : 's'),
    )
    .map(({ text, attributes }) => ({
      value: Number(text.replace('\u00A0%', '').replace(' %', '')),
      x: Number(attributes.get('x')),
      y: Number(attributes.get('y')),
    }))
    .filter(({ value, x }) => !Number.isNaN(value) && among(x));
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  expect(first.value).not.toBe(last.value);
  const [from, to] = side === 'left' ? [first.y - 0.35 * 11, last.y - 0.35 * 11] : [first.x, last.x];
  return (at: number) => first.value + ((at - from) / (to - from)) * (last.value - first.value);
}

test('the parts of a season’s bar add up to its rate, and each is distinguished from the others by its pattern', () => {
  const rates = ratesOf();
  const chart = drawn[0]![1];
  const rateAt = axisOf(chart, 'left');
  const bars = shapesOf(chart, 'outline').filter((shape) => !shape.includes('h20'));
  const tops = new Map<number, number>();
  for (const shape of bars) {
    const [, x, y] = /^M([\d.]+) ([\d.]+)h/.exec(shape)!.map(Number);
    tops.set(x!, Math.min(tops.get(x!) ?? Infinity, y!));
  }
  const expected = rates.byQuarter.filter(({ counted }) => counted > 0).map(({ per100 }) => per100!.value);
  const read = [...tops].sort(([a], [b]) => a - b).map(([, y]) => rateAt(y));
  expect(read).toHaveLength(3);
  read.forEach((rate, at) => expect(rate).toBeCloseTo(expected[at]!, 0));
  // Seven kinds: four alone, the rest together.
  const fills = new Set(elementsOf(chart).flatMap(({ attributes }) => (/h20v12/.test(attributes.get('d') ?? '') ? (attributes.get('fill') ?? attributes.get('class')!) : []))); // prettier-ignore
  fills.delete('outline');
  expect(fills).toEqual(new Set(['wall', 'url(#f-s-o)', 'block', 'url(#f-s-c)', 'url(#f-s-e)']));
  expect(textBoxes(readSvg(chart.svg)).map(({ text }) => text)).toContain('other kinds');
});

test('where the rate of one season may not be printed, all bars are counts', () => {
  const rates = ratesOf();
  const alone = { ...rates, byQuarter: rates.byQuarter.map(({ per100, ...season }, at) => (at === 0 || !per100 ? season : { ...season, per100 })) }; // prettier-ignore
  const texts = (told: typeof rates) => textBoxes(readSvg(seasonChart('f-s', told, words).svg)).map(({ text }) => text); // prettier-ignore
  expect(texts(rates)).toContain('Lesions first seen per 100 cow-years');
  expect(texts(alone)).not.toContain('Lesions first seen per 100 cow-years');
  expect(texts(alone)).toContain('Lesions first seen');
});

test('without a herd the bars count lesions and no range is drawn', () => {
  const chart = drawn[1]![1];
  const texts = textBoxes(readSvg(chart.svg)).map(({ text }) => text);
  expect(texts).toContain('Lesions first seen');
  expect(texts).toContain('5 lesions');
  expect(shapesOf(chart, 'thin').filter((shape) => shape.includes('h8m-4'))).toEqual([]);
});

test('boxes and level lines of a curve lie where the estimate has them, and no line crosses a box', () => {
  const chart = drawn[3]![1];
  const [dayAt, shareAt] = [axisOf(chart, 'foot'), axisOf(chart, 'left')];
  const boxes = shapesOf(chart, 'dotted').filter((shape) => !shape.includes('h20v12'));
  const wanted = curve.boxes.filter(({ after, by }) => after < by && by !== Infinity);
  expect(boxes).toHaveLength(wanted.length);
  let come = 0;
  for (const [at, { after, by, mass }] of wanted.entries()) {
    const [, x, y, width, height] = /^M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)h/.exec(boxes[at]!)!.map(Number);
    expect(dayAt(x!)).toBeCloseTo(after, 0);
    expect(dayAt(x! + width!)).toBeCloseTo(by, 0);
    expect(Math.abs(shareAt(y! + height!) - 100 * come)).toBeLessThan(0.3);
    come += mass;
    expect(Math.abs(shareAt(y!) - 100 * come)).toBeLessThan(0.3);
  }
  const line = shapesOf(chart, 'top').join('');
  const inBox = corners(line).filter(([x]) =>
    wanted.some(({ after, by }) => dayAt(x) > after + 0.5 && dayAt(x) < by - 0.5),
  );
  expect(inBox).toEqual([]);
  // The last level reaches the share come in all, the exact day among it.
  const inAll = curve.boxes.filter(({ by }) => by !== Infinity).reduce((sum, { mass }) => sum + mass, 0);
  expect(Math.abs(shareAt(corners(line).at(-1)![1]) - 100 * inAll)).toBeLessThan(0.3);
});

test('the band goes from the earlier lower bound to the later upper one', () => {
  const chart = drawn[2]![1];
  const shapes = shapesOf(chart, 'band').filter((shape) => !shape.includes('h20v12'));
  expect(shapes).toHaveLength(2);
  const right = (x: number) => x > 330;
  const [dayAt, shareAt] = [axisOf(chart, 'foot', right), axisOf(chart, 'left', right)];
  const read = corners(shapes[1]!).map(([x, y]) => [Math.round(dayAt(x)), Math.round(shareAt(y))]);
  expect(read).toEqual([[0, 50], [14, 50], [14, 90], [56, 90], [56, 20], [56, 5], [14, 5], [14, 0], [0, 0]]); // prettier-ignore
});

test('a curve on which nothing has come is not drawn', () => {
  expect(isDrawn({ ...bounded, boxes: [] })).toBe(false);
  expect(isDrawn(curve)).toBe(true);
});

test('each round has its share, its count and its range; scales have marks of their own', () => {
  const chart = drawn[4]![1];
  const rounds = roundsOf().filter(({ share }) => share);
  expect(rounds).toHaveLength(4);
  const shareAt = axisOf(chart, 'left');
  const texts = textBoxes(readSvg(chart.svg)).map(({ text }) => text);
  for (const { lame, scored } of rounds) expect(texts).toContain(`${lame} of ${scored}`);
  const ranges = shapesOf(chart, 'thin').flatMap(
    (shape) => /^M[\d.]+ ([\d.]+)h8m-4 0V([\d.]+)/.exec(shape) ?? [],
  );
  const read = ranges
    .flatMap((text, at) =>
      at % 3 === 0 ? [[Number(ranges[at + 1]), Number(ranges[at + 2])]] : text ? [] : [],
    )
    .slice(1);
  for (const [at, { share }] of rounds.entries()) {
    expect(Math.abs(shareAt(read[at]![0]!) - 100 * share!.low)).toBeLessThan(0.4);
    expect(Math.abs(shareAt(read[at]![1]!) - 100 * share!.high)).toBeLessThan(0.4);
  }
  const dots = shapesOf(chart, 'solid').map((shape) => shareAt(corners(shape)[0]![1]));
  rounds
    .slice(0, 3)
    .forEach(({ share }, at) => expect(Math.abs(dots[at]! - 100 * share!.value)).toBeLessThan(0.4));
  // The round on the other scale, beside its sign in the legend.
  expect(shapesOf(chart, 'ring')).toHaveLength(2);
  expect(chart.notes.join(' ')).toContain('Scales are not converted');
});

test('a bar of copper is as long as its kilograms, parted at what crops take off', () => {
  const chart = drawn[5]![1];
  const kgAt = axisOf(chart, 'foot');
  const whole = shapesOf(chart, 'outline')
    .filter((shape) => !shape.includes('h20v12'))
    .map((shape) => {
      const [, x, , long] = /^M([\d.]+) ([\d.]+)h([\d.]+)/.exec(shape)!.map(Number);
      return kgAt(x! + long!);
    });
  expect(whole.map((kg) => Math.round(kg * 20) / 20)).toEqual([1.5, 0.25]);
  const pale = shapesOf(chart, 'pale').filter((shape) => !shape.includes('h20v12'));
  expect(
    pale.map((shape) => Math.round(kgAt(Math.max(...corners(shape).map(([x]) => x))) * 20) / 20),
  ).toEqual([0.6, 0.25]);
  const texts = textBoxes(readSvg(chart.svg)).map(({ text }) => text);
  expect(texts).toContain('1.5 kg/ha; soil up 10 mg/kg in 26 to 64 years');
});
