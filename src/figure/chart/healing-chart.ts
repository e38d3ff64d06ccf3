import type { TimeToEvent, WalkMark } from '../../herd/time-to-event.js';
import { levelPercent, percent } from '../../words/percent.js';
import type { Words } from '../../reference/words.js';
import { figureOf, hatch } from '../figure.js';
import { label, line, path, px, rect } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';
import type { ChartPlace } from './canvas-recorder.js';
import { type ChartFigure, drawLegend, numberAxis } from './chart-axis.js';
import { drawChart } from './draw-chart.js';

/** A curve as `herd` gives it. */
type Curve = NonNullable<TimeToEvent['curve']>;

/** One or two curves of the same thing, side by side, never over each other: a box on a box could not be read. */
export interface HealingChartInput {
  readonly id: string;
  readonly what: 'healed' | WalkMark;
  /** What healed, or who walked, for the title. */
  readonly title: string;
  /** `name`: whose curve it is. `basis`: how many cases it is based on. */
  readonly curves: readonly { readonly name: string; readonly basis: string; readonly curve: Curve }[];
}

const single = 420;
const wide = 660;
const chartHeight = 220;

/** True where a curve has something to show: a share that came while enough were followed. */
export function isDrawn({ boxes }: Curve): boolean {
  return boxes.length > 0;
}

/**
 * How long cases took, as curves that rise from none to all.
 *
 * Shape:   curves for which `isDrawn` holds → a figure
 * Checked: tests/figure/chart/charts.test.ts, read back against the boxes
 */
export function healingChart({ id, what, title, curves }: HealingChartInput, words: Words): ChartFigure {
  const say = (key: string, values = {}) =>
    words.say(`chart.healing.${key}`, { level: levelPercent, ...values });
  const isSingle = curves.length === 1;
  const width = isSingle ? single : wide;
  const panelWidth = (width - 8) / curves.length - (isSingle ? 0 : 6);
  const fill = hatch(id, 'expected');
  const box = (x: number, y: number, across: number, tall: number) =>
    rect('', x, y, across, tall, fill.fill) + rect('dotted', x, y, across, tall);
  const hasBox = curves.some(({ curve }) => curve.boxes.some(({ after, by }) => by > after));
  const legend = drawLegend(
    [
      { sign: (x, y) => line('top', x, y + 6, x + 20, y + 6), text: say(`line.${what}`) },
      hasBox && { sign: (x, y) => box(x, y, 20, 12), text: say('box') },
      { sign: (x, y) => rect('band', x, y, 20, 12), text: say('band') },
    ],
    width,
  );
  const top = legend.height + 44;
  const panels = curves.map(({ name, basis, curve }, at) => {
    const left = 4 + at * (panelWidth + 12);
    const place = { id: `${id}-p${at + 1}`, left, top, width: panelWidth, height: chartHeight };
    const { body, defs } = drawCurve(curve, place, box, words);
    const named = label('k', left + 4, legend.height + 20, name, 'start');
    return { defs, body: named + label('s', left + 4, legend.height + 34, basis, 'start') + body };
  });
  const height = top + chartHeight + 18;
  const description = curves.map(({ name, basis, curve }) => {
    const steps = curveSteps(curve).map(({ by, to }) => {
      const { lower, upper } = curve.bounds.find(({ day }) => day === by)!;
      return say('by', { day: by, percent: percent(to), low: percent(lower), high: percent(upper) });
    });
    return say('told', { name, basis, steps: words.commas(steps), last: curve.knownTo });
  });
  return figureOf(
    {
      id,
      width,
      height,
      title,
      description: description.join(' '),
      defs: (hasBox ? fill.def : '') + panels.map(({ defs }) => defs).join(''),
      body:
        legend.body +
        panels.map(({ body }) => body).join('') +
        label('s', width / 2, height - 4, say(`axis.${what}`)),
    },
    {
      notes: [`note.${what}`, ...(hasBox ? ['note.box'] : []), 'note.band', 'note.end'].map((key) =>
        say(key),
      ),
    },
  );
}

/** A share that has come by the end of a box, and had not before its start; shares from 0 to 1. */
type CurveStep = Readonly<Record<'after' | 'by' | 'from' | 'to', number>>;

/** The boxes of a curve as steps upward, from early to late. */
function curveSteps({ boxes }: Curve): CurveStep[] {
  let come = 0;
  return boxes.map(({ after, by, mass }) => {
    const from = come;
    come += mass;
    return { after, by, from, to: Math.min(1, come) };
  });
}

/** Days people count in: weeks, fours of weeks, and so on. */
const daySteps = [1, 2, 7, 14, 28, 56, 84, 112, 168, 336, 672, 1344, 2688];

/** Days from 0 to a last one, at most so many, in steps of weeks where that is enough. */
function daysTo(last: number, most: number): number[] {
  const step = daySteps.find((days) => last / days < most) ?? last;
  return Array.from({ length: Math.floor(last / step) + 1 }, (_, at) => at * step);
}

type Chart = ReturnType<typeof drawChart>;

/**
 * One curve of a share that has come, day by day: level where it is known, a box where nothing is known but its corners,
 * and the band of its bounds.
 */
function drawCurve(
  curve: Curve,
  place: ChartPlace,
  box: (x: number, y: number, width: number, height: number) => string,
  words: Words,
): { readonly body: string; readonly defs: string } {
  const end = curve.knownTo;
  const steps = curveSteps(curve);
  const days = {
    min: 0,
    max: Math.max(end, 1),
    values: daysTo(end, place.width < 400 ? 5 : 8),
    text: String,
  };
  const inPercent = (value: number) => words.say('chart.percent', { value });
  const shares = { min: 0, max: 100, values: [0, 25, 50, 75, 100], text: inPercent };
  const look = {
    pointRadius: 0,
    borderColor: 'top',
    borderWidth: 3,
    backgroundColor: 'none',
    clip: false,
  } as const;
  const chart = drawChart(
    {
      type: 'scatter',
      data: { datasets: [{ data: levels(steps, end), showLine: true, ...look }] },
      options: {
        layout: { padding: { right: 12, top: 6 } },
        scales: { x: numberAxis(days, { grid: false }), y: numberAxis(shares, { grid: true }) },
      },
    },
    place,
  );
  const boxes = steps
    .filter(({ after, by }) => by > after)
    .map(({ after, by, from, to }) => {
      const [left, top] = [chart.x(after), chart.y(100 * to)];
      return box(left, top, chart.x(by) - left, chart.y(100 * from) - top);
    });
  const written = steps.map(({ by, to }, at) => {
    const next = steps[at + 1]?.after ?? end;
    const text = inPercent(percent(to));
    const y = chart.y(100 * to) - 6;
    // Over the level part that follows, where there is room.
    if (chart.x(next) - chart.x(by) >= textWidth(text, 12) + 6)
      return label('ep', chart.x(by) + 3, y, text, 'start');
    return next === end ? label('ep', chart.x(by), y, text, 'end') : '';
  });
  return { body: band(curve, chart) + boxes.join('') + chart.body + written.join(''), defs: chart.defs };
}

/** The level parts, with a break at every box; an exact day is a step straight up. */
function levels(steps: readonly CurveStep[], end: number): { x: number; y: number }[] {
  return [
    { x: 0, y: 0 },
    ...steps.flatMap(({ after, by, from, to }) => [
      { x: after, y: 100 * from },
      ...(by > after ? [{ x: after, y: Number.NaN }] : []),
      { x: by, y: 100 * to },
    ]),
    { x: end, y: 100 * (steps.at(-1)?.to ?? 0) },
  ];
}

/** Between two days with bounds the lower one is the earlier's, the upper one the later's. */
function band({ bounds }: Curve, chart: Chart): string {
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
