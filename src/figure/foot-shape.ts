import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const point = z.tuple([z.number(), z.number()]);
const view = z.strictObject({
  width: z.number(),
  height: z.number(),
  lines: z.array(z.strictObject({ mark: z.string(), d: z.string() })),
  sites: z.record(z.string(), point),
  both: z.record(z.string(), point),
});
const side = view.extend({ wallLines: z.record(z.string(), z.tuple([point, point])) });
const shape = z.strictObject({ about: z.string(), below: view, side });
export type FootShape = z.infer<typeof shape>;
export type FootView = z.infer<typeof view>;
export type FootPoint = readonly [x: number, y: number];

let read: FootShape | undefined;

/** The drawn foot: its lines and where each site lies. */
export function footShape(): FootShape {
  return (read ??= readShared('foot-map.json', shape));
}
