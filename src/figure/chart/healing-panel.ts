import type { TimeToEvent } from '../../herd/time-to-event.js';
import { percent } from '../../words/percent.js';
import type { Words } from '../../reference/words.js';
import type { Hatch } from '../figure.js';
import { label, path, px, rect } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';
import { numberAxis } from './chart-axis.js';
import { daySteps } from './day-steps.js';
import { drawChart, type ChartPlace, type DrawnChart } from './draw-chart.js';

/** A curve as `herd` gives it. */
export type Curve = NonNullable<TimeToEvent['curve']>;

/** A share that has come by the end of a box, and had not before its start. */
export interface CurveStep {
  readonly after: number;
  readonly by: number;
  /** Shares, 0 to 1, before and after the box. */
  readonly from: number;
  readonly to: number;
}

/** Fills in use of a panel, for the definitions of the drawing. */
export const boxHatch: Hatch = 'expected';

/** The boxes of a curve as steps upward, from early to late. */
export function curveSteps({ boxes }: Curve): CurveStep[] {
  let come = 0;
  return boxes.map(({ after, by, mass }) => {
    const from = come;
    come += mass;
    return { after, by, from, to: Math.min(1, come) };
  });
}

/**
 * One curve of a share that has come, day by day: level where it is known, a box where nothing is known but its corners, and the band of its
 * bounds.
 */
export function healingPanel(
  curve: Curve,
  place: ChartPlace,
  boxFill: string,
  words: Words,
): { body: string; defs: string } {
  const end = curve.knownTo;
  const steps = curveSteps(curve);
  const ticks = daySteps(end, place.width < 400 ? 5 : 8);
  const chart = drawChart(
    {
      type: 'scatter',
      data: {
        datasets: [
          {
            data: levels(steps, end),
            showLine: true,
            pointRadius: 0,
            borderColor: 'top',
            borderWidth: 3,
            backgroundColor: 'none',
            clip: false,
          },
        ],
      },
      options: {
        layout: { padding: { right: 12, top: 6 } },
        scales: {
          x: numberAxis({ min: 0, max: Math.max(end, 1), values: ticks, text: String }, { grid: false }),
          y: numberAxis(
            {
              min: 0,
              max: 100,
              values: [0, 25, 50, 75, 100],
              text: (value) => words.say('chart.percent', { value }),
            },
            { grid: true },
          ),
        },
      },
    },
    place,
  );
  const boxes = steps
    .filter(({ after, by }) => by > after)
    .map((step) => {
      const [left, right] = [chart.x(step.after), chart.x(step.by)];
      const [top, bottom] = [chart.y(100 * step.to), chart.y(100 * step.from)];
      return (
        rect('', left, top, right - left, bottom - top, boxFill) +
        rect('dotted', left, top, right - left, bottom - top)
      );
    });
  return {
    body: band(curve, chart) + boxes.join('') + chart.body + shares(steps, chart, end, words),
    defs: chart.defs,
  };
}

/** The level parts, with a break at every box; an exact day is a step straight up. */
function levels(steps: readonly CurveStep[], end: number): { x: number; y: number }[] {
  const line = [{ x: 0, y: 0 }];
  for (const { after, by, from, to } of steps) {
    line.push({ x: after, y: 100 * from });
    if (by > after) line.push({ x: after, y: Number.NaN });
    line.push({ x: by, y: 100 * to });
  }
  line.push({ x: end, y: 100 * (steps.at(-1)?.to ?? 0) });
  return line;
}

/** Between two days with bounds the lower one is the earlier's, the upper one the later's. */
function band({ bounds }: Curve, chart: DrawnChart): string {
  const at = (day: number, share: number) => `${px(chart.x(day))} ${px(chart.y(100 * share))}`;
  let [day, lower] = [0, 0];
  const [up, down]: [string[], string[]] = [[], []];
  for (const one of bounds) {
    up.push(at(day, one.upper), at(one.day, one.upper));
    down.push(at(day, lower), at(one.day, lower));
    [day, lower] = [one.day, one.lower];
  }
  down.push(at(day, lower));
  return path('band', `M${[...up, ...down.toReversed()].join('L')}z`);
}

/** The share reached, written over the level part that follows, where there is room. */
function shares(steps: readonly CurveStep[], chart: DrawnChart, end: number, words: Words): string {
  return steps
    .map(({ by, to }, at) => {
      const next = steps[at + 1]?.after ?? end;
      const text = words.say('chart.percent', { value: percent(to) });
      const room = chart.x(next) - chart.x(by);
      if (next !== end && room < textWidth(text, 12) + 6) return '';
      const fits = room >= textWidth(text, 12) + 6;
      return fits
        ? label('ep', chart.x(by) + 3, chart.y(100 * to) - 6, text, 'start')
        : label('ep', chart.x(by), chart.y(100 * to) - 6, text, 'end');
    })
    .join('');
}
