import type { WalkMark } from '../../herd/time-to-event.js';
import { levelPercent, percent } from '../../words/percent.js';
import type { Words } from '../../reference/words.js';
import { drawing, hatch } from '../figure.js';
import { label, line, rect } from '../svg-mark.js';
import { type ChartFigure, drawLegend } from './chart-axis.js';
import { boxHatch, type Curve, curveSteps, healingPanel } from './healing-panel.js';

/** One or two curves of the same thing, side by side, never over each other: a box on a box could not be read. */
export interface HealingChartInput {
  readonly id: string;
  readonly what: 'healed' | WalkMark;
  /** What healed, or who walked, for the title. */
  readonly title: string;
  /** `name`: whose curve it is. `basis`: how many cases it rests on. */
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
  const width = curves.length > 1 ? wide : single;
  const panelWidth = (width - 8) / curves.length - (curves.length > 1 ? 6 : 0);
  const fill = hatch(id, boxHatch);
  const hasBox = curves.some(({ curve }) => curve.boxes.some(({ after, by }) => by > after));
  const legend = drawLegend(
    [
      { sign: (x, y) => line('top', x, y + 6, x + 20, y + 6), text: say(`line.${what}`) },
      ...(hasBox
        ? [
            {
              sign: (x: number, y: number) =>
                rect('', x, y, 20, 12, fill.fill) + rect('dotted', x, y, 20, 12),
              text: say('box'),
            },
          ]
        : []),
      { sign: (x, y) => rect('band', x, y, 20, 12), text: say('band') },
    ],
    { left: 8, top: 4, width: width - 16 },
  );
  const top = legend.height + 44;
  const panels = curves.map(({ name, basis, curve }, at) => {
    const left = 4 + at * (panelWidth + 12);
    const { body, defs } = healingPanel(
      curve,
      { id: `${id}-p${at + 1}`, left, top, width: panelWidth, height: chartHeight },
      fill.fill,
      words,
    );
    return {
      defs,
      body:
        label('k', left + 4, legend.height + 20, name, 'start') +
        label('s', left + 4, legend.height + 34, basis, 'start') +
        body,
    };
  });
  const height = top + chartHeight + 18;
  const description = curves.map(({ name, basis, curve }) => describe(name, basis, curve)).join(' ');
  return {
    svg: drawing({
      id,
      width,
      height,
      title,
      description,
      defs: (hasBox ? fill.def : '') + panels.map(({ defs }) => defs).join(''),
      body:
        legend.body +
        panels.map(({ body }) => body).join('') +
        label('s', width / 2, height - 4, say(`axis.${what}`)),
    }),
    title,
    description,
    notes: [say(`note.${what}`), ...(hasBox ? [say('note.box')] : []), say('note.band'), say('note.end')],
  };

  function describe(name: string, basis: string, curve: Curve): string {
    const told = curveSteps(curve).map(({ by, to }) => {
      const { lower, upper } = curve.bounds.find(({ day }) => day === by)!;
      return say('by', { day: by, percent: percent(to), low: percent(lower), high: percent(upper) });
    });
    return say('told', { name, basis, steps: words.commas(told), last: curve.knownTo });
  }
}
