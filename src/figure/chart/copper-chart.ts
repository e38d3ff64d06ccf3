import { largest } from '../../statistics/estimate.js';
import { footbathNumbers } from '../../reference/numbers.js';
import type { CopperForm } from '../../record/words.js';
import { mm } from '../../words/day-and-place.js';
import type { Words } from '../../reference/words.js';
import { figureOf, hatch } from '../figure.js';
import { label, rect } from '../svg-mark.js';
import { cutText } from '../wrap-text.js';
import { numberAxis, stepsTo, type ChartFigure, drawLegend, paintSign } from './chart-axis.js';
import { drawChart } from './draw-chart.js';

/** Copper that goes on the land from one bath, or from all of them in twelve months. */
export interface CopperBar {
  /** The bath and its time. */
  readonly name: string;
  /** The form it is taken as, where none is written. */
  readonly takenAs?: CopperForm;
  /** kg copper a hectare and year. */
  readonly kgPerHectare: number;
  /** Years until the soil has risen by the step, in words. */
  readonly years: string;
}

const width = 440;
const rowHeight = 50;
const barHeight = 14;
const axisHeight = 24;
const bar = { borderWidth: 0, inflateAmount: 0, barThickness: barHeight, clip: false } as const;

/**
 * Copper a hectare and year, bar by bar, parted at what crops take off at most: the rest stays in the soil.
 *
 * Shape:   one bar or more → a figure
 * Unit:    kg copper a hectare and year
 * Checked: tests/figure/chart/charts.test.ts, read back against the sums
 */
export function copperChart(id: string, bars: readonly CopperBar[], words: Words): ChartFigure {
  const say = (key: string, values = {}) => words.say(`chart.copper.${key}`, values);
  const offtake = footbathNumbers.cropsTakeOff.value;
  const rise = footbathNumbers.soilRise.value;
  const unsure = hatch(id, 'expected');
  const isUnsure = bars.some(({ takenAs }) => takenAs);
  const amounts = bars.map(({ kgPerHectare }) => kgPerHectare);
  const steps = stepsTo(largest(amounts, offtake), 5);
  const legend = drawLegend(
    [
      { sign: paintSign('pale'), text: say('offtake', { offtake }) },
      bars.some(({ takenAs }) => !takenAs) && { sign: paintSign('block'), text: say('stays') },
      isUnsure && { sign: paintSign(unsure.fill), text: say('unsure') },
    ],
    width,
  );
  const top = legend.height + 12;
  const height = bars.length * rowHeight + axisHeight;
  const kg = { min: 0, max: steps.at(-1)!, values: steps, text: words.number };
  const chart = drawChart(
    {
      type: 'bar',
      data: {
        labels: bars.map(() => ''),
        datasets: [
          { data: amounts.map((each) => Math.min(offtake, each)), backgroundColor: 'pale', ...bar },
          {
            data: amounts.map((each) => (each > offtake ? each - offtake : null)),
            backgroundColor: bars.map(({ takenAs }) => (takenAs ? unsure.fill : 'block')),
            ...bar,
          },
        ],
      },
      options: {
        indexAxis: 'y',
        layout: { padding: { left: 4, right: 16 } },
        scales: {
          x: { ...numberAxis(kg, { grid: true }), stacked: true },
          y: { type: 'category', display: false, stacked: true },
        },
      },
    },
    { id, left: 4, top, width: width - 8, height },
  );
  const told = bars.map(({ name, takenAs, kgPerHectare, years }) => ({
    name: takenAs ? say('name-as', { name, form: words.say(`vocabulary.copper-form.${takenAs}`) }) : name,
    value: say('value', { value: mm(kgPerHectare), years, rise }),
  }));
  const written = told.map(({ name, value }, at) => {
    const { x, y } = chart.bars[0]![at]!;
    return (
      rect('outline', x, y, chart.x(amounts[at]!) - x, barHeight) +
      label('ep', x + 6, y - 6, cutText(name, width - 30, 12), 'start') +
      label('ep', x + 6, y + barHeight + 12, value, 'start')
    );
  });
  const axis = label('s', width / 2, top + height + 10, say('axis'));
  return figureOf(
    {
      id,
      width,
      height: top + height + 16,
      title: say('title'),
      description: told.map((values) => say('told', values)).join(' '),
      defs: (isUnsure ? unsure.def : '') + chart.defs,
      body: legend.body + chart.body + written.join('') + axis,
    },
    {
      notes: [
        say('note.offtake', { offtake }),
        say('note.years', { rise }),
        ...(isUnsure ? [say('note.unsure')] : []),
      ],
    },
  );
}
