import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const face = z.record(z.string().regex(/^\d+$/), z.string());
const table = z.object({ slack: z.number(), other: z.number(), regular: face, bold: face });

const widths = readShared('text-widths.json', table);
const faces = { regular: widthOfCharacter(widths.regular), bold: widthOfCharacter(widths.bold) };

function widthOfCharacter(groups: Readonly<Record<string, string>>): ReadonlyMap<string, number> {
  return new Map(
    Object.entries(groups).flatMap(([width, characters]) =>
      [...characters].map((character) => [character, Number(width)] as const),
    ),
  );
}

/**
 * Width of a line of sans-serif text, px, a little on the wide side: no page measures text while it is built, so
 * what must not overlap is kept apart by this sum.
 * @example textWidth('000', 10) // → 17.7
 */
export function textWidth(text: string, sizePx: number, weight: 'regular' | 'bold' = 'regular'): number {
  let sum = 0;
  for (const character of text) sum += faces[weight].get(character) ?? widths.other;
  return (sum * sizePx * widths.slack) / 1000;
}
