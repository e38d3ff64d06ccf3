import { hatch } from '../hatch.js';
import { rect } from '../svg-mark.js';

/** A way to fill a bar that is told from the others without colour. */
export interface Paint {
  /** As a chart is told it: a mark of the palette or `url(#…)`. */
  readonly fill: string;
  readonly def: string;
}

/**
 * Ways to fill the parts of a bar, told apart by their pattern: plain, slanting lines, dark, squares, and thin lines far apart, the last for
 * what is lumped together.
 */
export function kindPaints(id: string): readonly [Paint, Paint, Paint, Paint, Paint] {
  return [
    { fill: 'wall', def: '' },
    hatch(id, 'open'),
    { fill: 'block', def: '' },
    hatch(id, 'covered'),
    hatch(id, 'expected'),
  ];
}

/** A small rectangle so filled, with an outline, for a legend. */
export function paintSign({ fill }: Paint): (x: number, y: number) => string {
  const isPattern = fill.startsWith('url(');
  return (x, y) => rect(fill, x, y, 20, 12, isPattern ? fill : undefined) + rect('outline', x, y, 20, 12);
}
