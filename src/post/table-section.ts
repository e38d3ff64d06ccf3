import type { Cell, TableSection } from '../book/page-parts.js';
import type { Words } from '../words/words.js';
import type { MailEntry, MailSection } from './mail-summary.js';

/** A table of the book with a line an animal, as a letter tells it: her, then each column by its name. */
export function tableSection(words: Words, { heading, lead, table }: TableSection): MailSection {
  return {
    heading,
    lead: [...lead, ...(table ? [table.caption] : [])],
    groups: table
      ? [
          {
            entries: table.rows.map(({ cells }) =>
              entryOf(
                words,
                table.columns.map(({ head }) => head),
                cells,
              ),
            ),
          },
        ]
      : [],
  };
}

function entryOf(words: Words, heads: readonly string[], [animal, ...others]: readonly Cell[]): MailEntry {
  return {
    title: words.say('mail.animal', { number: animal?.text ?? '', case: animal?.after ?? '' }),
    lines: others.flatMap(({ text, note = '' }, at) => {
      const head = heads[at + 1] ?? '';
      return text === ''
        ? []
        : [words.say(note === '' ? 'mail.column' : 'mail.column-noted', { head, text, note })];
    }),
  };
}
