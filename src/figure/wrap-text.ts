import { largest } from '../statistics/estimate.js';
import { textWidth } from './text-width.js';

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

/** Width of the widest word, px: the least a column must hold. */
export function widestWord(text: string, sizePx: number, weight: 'regular' | 'bold' = 'regular'): number {
  return largest(
    text.split(' ').map((word) => textWidth(word, sizePx, weight)),
    0,
  );
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
