import { largest } from '../../statistics/estimate.js';
import { footbathNumbers } from '../../reference/numbers.js';
import type { CopperForm } from '../../record/words.js';
import { mm } from '../../words/day-and-place.js';
import type { Words } from '../../reference/words.js';
import { drawing, hatch } from '../figure.js';
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
  const steps = stepsTo(
    largest(
      bars.map(({ kgPerHectare }) => kgPerHectare),
      offtake,
    ),
    5,
  );
  const legend = drawLegend(
    [
      { sign: paintSign({ fill: 'pale', def: '' }), text: say('offtake', { offtake }) },
      ...(bars.some(({ takenAs }) => !takenAs)
        ? [{ sign: paintSign({ fill: 'block', def: '' }), text: say('stays') }]
        : []),
      ...(isUnsure ? [{ sign: paintSign(unsure), text: say('unsure') }] : []),
    ],
    { left: 8, top: 4, width: width - 16 },
  );
  const top = legend.height + 12;
  const height = bars.length * rowHeight + axisHeight;
  const chart = drawChart(
    {
      type: 'bar',
      data: {
        labels: bars.map(() => ''),
        datasets: [
          {
            data: bars.map(({ kgPerHectare }) => Math.min(offtake, kgPerHectare)),
            backgroundColor: 'pale',
            ...bar,
          },
          {
            data: bars.map(({ kgPerHectare }) => (kgPerHectare > offtake ? kgPerHectare - offtake : null)),
            backgroundColor: bars.map(({ takenAs }) => (takenAs ? unsure.fill : 'block')),
            ...bar,
          },
        ],
      },
      options: {
        indexAxis: 'y',
        layout: { padding: { left: 4, right: 16 } },
        scales: {
          x: {
            ...numberAxis({ min: 0, max: steps.at(-1)!, values: steps, text: words.number }, { grid: true }),
            stacked: true,
          },
          y: { type: 'category', display: false, stacked: true },
        },
      },
    },
    { id, left: 4, top, width: width - 8, height },
  );
  const written = bars.map(({ name, takenAs, kgPerHectare, years }, at) => {
    const { x, y } = chart.bars[0]![at]!;
    const whole = takenAs
      ? say('name-as', { name, form: words.say(`vocabulary.copper-form.${takenAs}`) })
      : name;
    const value = say('value', { value: mm(kgPerHectare), years, rise });
    return (
      rect('outline', x, y, chart.x(kgPerHectare) - x, barHeight) +
      label('ep', x + 6, y - 6, cutText(whole, width - 30, 12), 'start') +
      label('ep', x + 6, y + barHeight + 12, value, 'start')
    );
  });
  const title = say('title');
  const description = bars
    .map(({ name, takenAs, kgPerHectare, years }) =>
      say('told', {
        name: takenAs ? say('name-as', { name, form: words.say(`vocabulary.copper-form.${takenAs}`) }) : name,
        value: say('value', { value: mm(kgPerHectare), years, rise }),
      }),
    )
    .join(' ');
  return {
    svg: drawing({
      id,
      width,
      height: top + height + 16,
      title,
      description,
      defs: (isUnsure ? unsure.def : '') + chart.defs,
      body:
        legend.body + chart.body + written.join('') + label('s', width / 2, top + height + 10, say('axis')),
    }),
    title,
    description,
    notes: [
      say('note.offtake', { offtake }),
      say('note.years', { rise }),
      ...(isUnsure ? [say('note.unsure')] : []),
    ],
  };
}
