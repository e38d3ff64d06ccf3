import { px, path } from '../svg-mark.js';

/** A range as an upright line with a foot and a head. */
export function rangeMark(x: number, fromY: number, toY: number): string {
  return path('thin', `M${px(x - 4)} ${px(fromY)}h8m-4 0V${px(toY)}m-4 0h8`);
}
