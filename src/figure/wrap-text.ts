import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const face = z.record(z.string().regex(/^\d+$/), z.string());
const table = z.object({ other: z.number(), regular: face, bold: face });

const widths = readShared('text-widths.json', table);
const faces = { regular: widthOfCode(widths.regular), bold: widthOfCode(widths.bold) };

/** By character code; the codes a table does not hold count as `other`. */
function widthOfCode(groups: Readonly<Record<string, string>>): Float64Array {
  const byCode = new Float64Array(0x10000).fill(widths.other);
  for (const [width, characters] of Object.entries(groups))
    for (const character of characters) byCode[character.charCodeAt(0)] = Number(width);
  // The marks of what a record says are not seen.
  byCode[0x2068] = byCode[0x2069] = 0;
  return byCode;
}

/**
 * Width of a line in the face of every page, px: no page measures text while it is built, so what must not
 * overlap is kept apart by this sum. A letter outside the plane of common ones counts twice.
 *
 * Checked: tests/browser/same-sides.test.ts, against a browser
 * @example textWidth('000', 10) // → 14.91
 */
export function textWidth(text: string, sizePx: number, weight: 'regular' | 'bold' = 'regular'): number {
  return (unitsOf(text, faces[weight]) * sizePx) / 1000;
}

/** Thousandths of the size of type, added to those of what comes before. */
function unitsOf(text: string, widthOf: Float64Array, before = 0): number {
  let sum = before;
  for (let at = 0; at < text.length; at++) sum += widthOf[text.charCodeAt(at)]!;
  return sum;
}

/** Text broken at its spaces into lines no wider than `widthPx`; a longer word keeps a line of its own. */
export function wrapText(
  text: string,
  widthPx: number,
  sizePx: number,
  weight: 'regular' | 'bold' = 'regular',
): string[] {
  const widthOf = faces[weight];
  const lines: string[] = [];
  let line: string | undefined;
  let units = 0;
  for (const word of text.split(' ')) {
    const longer = line === undefined ? Infinity : unitsOf(word, widthOf, units + widthOf[0x20]!);
    if ((longer * sizePx) / 1000 <= widthPx) {
      line += ` ${word}`;
      units = longer;
    } else {
      if (line !== undefined) lines.push(line);
      line = word;
      units = unitsOf(word, widthOf);
    }
  }
  return [...lines, line!];
}

/** Text cut to a width with an ellipsis; untouched where it fits. @example cutText('a-very-long-name', 40, 11) // → 'a-very…' */
export function cutText(
  text: string,
  widthPx: number,
  sizePx: number,
  weight: 'regular' | 'bold' = 'regular',
): string {
  if (textWidth(text, sizePx, weight) <= widthPx) return text;
  const characters = [...text];
  while (characters.length && textWidth(`${characters.join('')}…`, sizePx, weight) > widthPx)
    characters.pop();
  return `${characters.join('')}…`;
}
