import { createRequire } from 'node:module';
import type * as Library from 'chart.js';
import type { ChartConfiguration } from 'chart.js';
import type { Box } from '../place-tags.js';
import { type ChartPlace, recordedCanvas } from './canvas-recorder.js';

let loaded: typeof Library | undefined;

/** Chart.js with the parts our charts use; loaded when the first chart is drawn, so that nothing else waits for it. */
function chartLibrary(): typeof Library {
  if (loaded) return loaded;
  const library = withoutReadyPaths(() => createRequire(import.meta.url)('chart.js') as typeof Library);
  const { BarController, BarElement, CategoryScale, LineElement, LinearScale } = library;
  const { PointElement, ScatterController } = library;
  library.Chart.register(BarController, BarElement, CategoryScale, LineElement, LinearScale);
  library.Chart.register(PointElement, ScatterController);
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

/**
 * Has Chart.js lay a chart out and draw it, once, without a page, a clock or the habits of the place it runs in: as marks of
 * the palette, with where its values and bars lie in the drawing, for what is written over it.
 *
 * Shape:   configuration without general options → the same for the same input, in every time zone
 * Unit:    CSS pixels
 * Checked: tests/figure/chart/
 */
export function drawChart<Kind extends 'bar' | 'scatter'>(
  { type, data, options }: Pick<ChartConfiguration<Kind>, 'data' | 'options'> & { readonly type: Kind },
  place: ChartPlace,
) {
  const { Chart } = chartLibrary();
  const { canvas, body, defs } = recordedCanvas(place);
  const chart = new Chart<Kind>(canvas, {
    type,
    data,
    options: { ...options, ...general },
  } as ChartConfiguration<Kind>);
  const placeOn = (axis: 'x' | 'y', shift: number) => {
    const scale = chart.scales[axis];
    return (value: number) => shift + (scale?.getPixelForValue(value) ?? Number.NaN);
  };
  const drawn = {
    body: body(),
    defs: defs(),
    x: placeOn('x', place.left),
    y: placeOn('y', place.top),
    /** The bars of each series, in the order of the data; empty for other charts. */
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
    > & { readonly horizontal: boolean };
    return horizontal
      ? { x: left + Math.min(x, base), y: top + y - height / 2, width: Math.abs(x - base), height }
      : { x: left + x - width / 2, y: top + Math.min(y, base), width, height: Math.abs(y - base) };
  });
}
