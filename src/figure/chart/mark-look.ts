import { palette } from '../palette.js';
import { px } from '../svg-mark.js';
import type { CanvasState } from './canvas-state.js';
import { scaleAndTurn } from './matrix.js';

/** What the palette says of a mark. Throws a RangeError on a mark it does not have. */
export function lookOf(mark: string): Readonly<Record<string, string | number>> {
  const look = palette().marks[mark];
  if (!look) throw new RangeError(`no mark of the palette: "${mark}"`);
  return look;
}

/** What the palette leaves open of a line, as attributes; what it settles must be what the canvas was told, or a RangeError. */
export function lineLook(mark: string, told: CanvasState): string {
  const said = lookOf(mark);
  if (said['stroke'] === undefined || said['fill'] !== 'none')
    throw new RangeError(`the mark ${mark} is no line`);
  const { lineWidth, dash, lineDashOffset, lineCap, lineJoin, matrix } = told;
  const attributes: Readonly<Record<string, string>> = {
    'stroke-width': px(lineWidth * scaleAndTurn(matrix).scale),
    'stroke-dasharray': dash.join(' '),
    'stroke-dashoffset': dash.length === 0 || lineDashOffset === 0 ? '' : px(lineDashOffset),
    'stroke-linecap': lineCap === 'butt' ? '' : lineCap,
    'stroke-linejoin': lineJoin === 'miter' ? '' : lineJoin,
  };
  return Object.entries(attributes)
    .map(([name, value]) => {
      const settled = said[name];
      if (settled === undefined) return value === '' ? '' : ` ${name}="${value}"`;
      if (String(settled) === value) return '';
      throw new RangeError(`${name} of ${mark} is ${settled}; the chart was told "${value}"`);
    })
    .join('');
}
