import { CanvasPen } from './canvas-pen.js';
import { CanvasRecorder } from './canvas-recorder.js';
import type { CanvasSettings, CanvasState } from './canvas-state.js';

/** As much of a canvas element as a chart asks for. */
export interface RecordedCanvas {
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
