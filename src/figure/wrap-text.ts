import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const face = z.record(z.string().regex(/^\d+$/), z.string());
const table = z.object({ other: z.number(), regular: face, bold: face });

const widths = readShared('text-widths.json', table);
const faces = { regular: widthOfCode(widths.regular), bold: widthOfCode(widths.bold) };

/** By character code; the codes a table does not hold count as `other`. */
function widthOfCode(groups: Readonly<Record<string, string>>): readonly (number | undefined)[] {
  const byCode: (number | undefined)[] = [];
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
  const widthOf = faces[weight];
  let sum = 0;
  for (let at = 0; at < text.length; at++) sum += widthOf[text.charCodeAt(at)] ?? widths.other;
  return (sum * sizePx) / 1000;
}

/** Text broken at its spaces into lines no wider than `widthPx`; a longer word keeps a line of its own. */
export function wrapText(
  text: string,
  widthPx: number,
  sizePx: number,
  weight: 'regular' | 'bold' = 'regular',
): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer, sizePx, weight) <= widthPx) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
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
