import { dayInWords } from '../../words/day-in-words.js';
import { shareInWords } from '../../words/percent.js';
import type { Words } from '../../words/words.js';
import type { CellValue, ColumnName } from './column.js';

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
    case 'share': {
      const { count, of, animals } = cell.value;
      return [shareInWords(words, count, of, animals).map(unbroken).join('; ')];
    }
    case 'word':
      return [words.say(`${column.words}.${cell.value}`)];
    case 'number':
      return [String(cell.value)];
    case 'text':
      return [column.whole && cell.value.length <= longestWhole ? unbroken(cell.value) : cell.value];
  }
}

/** A longer text is broken all the same: it would push its column past the sheet. */
const longestWhole = 24;

/** A day, a share or its bounds are not torn apart at a line's end. */
function unbroken(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}
