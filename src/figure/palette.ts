import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

/** By day, by night, on paper. */
export const schemes = ['light', 'dark', 'print'] as const;
export type Scheme = (typeof schemes)[number];

const hex = z.string().regex(/^#[0-9a-f]{6}$/);
const shape = z.strictObject({
  about: z.string(),
  colours: z.record(z.string(), z.strictObject({ light: hex, dark: hex, print: hex, says: z.string() })),
  marks: z.record(z.string(), z.record(z.string(), z.union([z.string(), z.number()]))),
  pairs: z.array(z.strictObject({ front: z.string(), back: z.string(), kind: z.enum(['text', 'graphic']) })),
});
export type Palette = z.infer<typeof shape>;

let read: Palette | undefined;

/** The colours by role, the marks made of them, and the pairs whose contrast must hold. */
export function palette(): Palette {
  return (read ??= readShared('palette.json', shape));
}

/** Type size of a text mark, px. */
export function textSize(mark: string): number {
  return Number(palette().marks[mark]?.['font-size']);
}

export function textWeight(mark: string): 'regular' | 'bold' {
  return palette().marks[mark]?.['font-weight'] === undefined ? 'regular' : 'bold';
}
