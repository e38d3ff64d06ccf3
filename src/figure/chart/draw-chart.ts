import type * as Library from 'chart.js';
import type { ChartConfiguration } from 'chart.js';
import type { Box } from '../place-tags.js';
import { CanvasRecorder } from './canvas-recorder.js';
import { createRequire } from 'node:module';
import { CanvasPen } from './canvas-pen.js';
import type { CanvasSettings, CanvasState } from './canvas-state.js';

/** As much of a canvas element as a chart asks for. */
interface RecordedCanvas {
  readonly width: number;
  readonly height: number;
  readonly style: Record<string, string>;
  readonly getContext: (kind: string) => object;
}

const settings: ReadonlySet<string> = new Set<keyof CanvasSettings>([
  'fillStyle',
  'strokeStyle',
  'lineWidth',
  'lineCap',
  'lineJoin',
  'lineDashOffset',
  'globalAlpha',
  'font',
  'textAlign',
  'textBaseline',
]);
const numbers: ReadonlySet<string> = new Set(['lineWidth', 'lineDashOffset', 'globalAlpha']);
const calls: ReadonlySet<string> = new Set(
  [CanvasPen.prototype, CanvasRecorder.prototype]
    .flatMap((half) => Object.getOwnPropertyNames(half))
    .filter((name) => !['constructor', 'body', 'defs'].includes(name)),
);

/**
 * The recorder as a canvas that knows only what the recorder knows: any other name that is read or set throws, so that no part of a chart
 * is silently left out.
 *
 * Checked: tests/figure/chart/canvas-recorder.test.ts
 */
export function strictCanvas(recorder: CanvasRecorder, width: number, height: number): RecordedCanvas {
  const canvas: RecordedCanvas = {
    width,
    height,
    style: {},
    getContext: (kind) => {
      if (kind !== '2d') throw new Error(`a chart is drawn flat, not in "${kind}"`);
      return context;
    },
  };
  const context = new Proxy(recorder, {
    get: (_, name) => {
      if (name === 'canvas') return canvas;
      if (typeof name === 'symbol') return undefined;
      if (settings.has(name)) return recorder.state[name as keyof CanvasState];
      if (calls.has(name)) return (recorder[name as keyof CanvasRecorder] as () => unknown).bind(recorder);
      throw new Error(`the chart asks its canvas for ${name}, which is not recorded`);
    },
    set: (_, name, value: unknown) => {
      if (typeof name === 'symbol' || !settings.has(name))
        throw new Error(`the chart sets ${String(name)}, which is not recorded`);
      if (typeof value !== (numbers.has(name) ? 'number' : 'string'))
        throw new Error(`the chart sets ${name} to ${String(value)}`);
      Object.assign(recorder.state, { [name]: value });
      return true;
    },
  });
  return canvas;
}

let loaded: typeof Library | undefined;

/** Chart.js with the parts our charts use; loaded when the first chart is drawn, so that nothing else waits for it. */
function chartLibrary(): typeof Library {
  if (loaded) return loaded;
  const library = withoutReadyPaths(() => createRequire(import.meta.url)('chart.js') as typeof Library);
  const {
    BarController,
    BarElement,
    CategoryScale,
    LineElement,
    LinearScale,
    PointElement,
    ScatterController,
  } = library;
  library.Chart.register(
    BarController,
    BarElement,
    CategoryScale,
    LineElement,
    LinearScale,
    PointElement,
    ScatterController,
  );
  return (loaded = library);
}

/** Where the world offers ready-made paths, Chart.js hands those over instead of drawing: a recorder sees nothing of them. */
function withoutReadyPaths<T>(load: () => T): T {
  const world = globalThis as { Path2D?: unknown };
  const offered = world.Path2D;
  if (offered === undefined) return load();
  delete world.Path2D;
  try {
    return load();
  } finally {
    world.Path2D = offered;
  }
}

/** The two kinds our charts are made of. */
export type ChartKind = 'bar' | 'scatter';

/** Where a chart lies in its drawing, px. */
export interface ChartPlace {
  /** The drawing's id: the ids inside begin with it. */
  readonly id: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A chart as SVG, and where its values lie in the drawing, for what is written over it. */
export interface DrawnChart {
  readonly body: string;
  readonly defs: string;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  /** Between the axes. */
  readonly area: Box;
  /** The bars of each series, in the order of the data; empty for other charts. */
  readonly bars: readonly (readonly Box[])[];
}

/**
 * Has Chart.js lay a chart out and draw it, once, without a page, a clock or the habits of the place it runs in.
 *
 * Shape:   configuration without general options → marks of the palette; the same for the same input, in every time zone
 * Unit:    CSS pixels
 * Checked: tests/figure/chart/
 */
export function drawChart<Kind extends ChartKind>(
  { type, data, options }: Pick<ChartConfiguration<Kind>, 'data' | 'options'> & { readonly type: Kind },
  place: ChartPlace,
): DrawnChart {
  const { Chart } = chartLibrary();
  const recorder = new CanvasRecorder(place.id, place);
  const canvas = strictCanvas(recorder, place.width, place.height);
  const configuration: ChartConfiguration<Kind> = {
    type,
    data,
    options: { ...options, ...general } as NonNullable<ChartConfiguration<Kind>['options']>,
  };
  const chart = new Chart<Kind>(canvas, configuration);
  const { left, top, right, bottom } = chart.chartArea;
  const placeOn = (axis: 'x' | 'y', shift: number) => {
    const scale = chart.scales[axis];
    return (value: number) => shift + (scale?.getPixelForValue(value) ?? Number.NaN);
  };
  const drawn = {
    body: recorder.body,
    defs: recorder.defs,
    x: placeOn('x', place.left),
    y: placeOn('y', place.top),
    area: { x: left + place.left, y: top + place.top, width: right - left, height: bottom - top },
    bars: type === 'bar' ? data.datasets.map((_, at) => barsOf(chart.getDatasetMeta(at).data, place)) : [],
  };
  chart.destroy();
  return drawn;
}

/** Nothing moves, nothing is asked of a page; numbers are worded by us, so the locale only has to be a fixed one. */
const general = {
  animation: false,
  responsive: false,
  devicePixelRatio: 1,
  events: [],
  locale: 'en-GB',
} as const;

/** A bar of Chart.js runs from `base` to `y`, or lying, to `x`. */
function barsOf(elements: readonly object[], { left, top }: ChartPlace): Box[] {
  return elements.map((element) => {
    const { x, y, base, width, height, horizontal } = element as Record<
      'x' | 'y' | 'base' | 'width' | 'height',
      number
    > & {
      readonly horizontal: boolean;
    };
    return horizontal
      ? { x: left + Math.min(x, base), y: top + y - height / 2, width: Math.abs(x - base), height }
      : { x: left + x - width / 2, y: top + Math.min(y, base), width, height: Math.abs(y - base) };
  });
}
