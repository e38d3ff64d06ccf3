import { dayInWords } from '../../words/day-in-words.js';
import { percent } from '../../words/percent.js';
import type { Words } from '../../words/words.js';
import type { CellValue, ColumnName, Share } from './column.js';

/** A value as the page says it, a line each. */
export function cellInWords(
  words: Words,
  column: Pick<ColumnName, 'words' | 'whole'>,
  cell: CellValue,
): readonly string[] {
  if (cell === undefined) return [];
  switch (cell.kind) {
    case 'lines':
      return cell.value;
    case 'day':
      return [unbroken(dayInWords(words, cell.value))];
    case 'share':
      return [unbroken(shareInWords(words, cell.value))];
    case 'word':
      return [words.say(`${column.words}.${cell.value}`)];
    case 'number':
      return [String(cell.value)];
    case 'text':
      return [column.whole && cell.value.length <= longestWhole ? unbroken(cell.value) : cell.value];
  }
}

/**
 * A share with the number it is of; of none no per cent is said.
 * @example shareInWords(wordsOf('en-GB'), { count: 24, of: 205 }) // → '24 of 205 (12 %)'
 */
export function shareInWords(words: Words, { count, of }: Share): string {
  return of === 0
    ? words.say('audit.share-of-none', { count, of })
    : words.say('audit.share', { count, of, percent: percent(count / of) });
}

/** A longer text is broken all the same: it would push its column past the sheet. */
const longestWhole = 24;

/** A day or a share is not torn apart at a line's end. */
function unbroken(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}
