import { type GapInPack } from '../gaps/audit-gap.js';
import { gapOfPackInWords } from '../gaps/audit-gap-in-words.js';
import { gradeOf } from '../gaps/gaps-in-pack.js';
import { sealed, type SealedTable } from '../table/column.js';

/** What the records do not hold, graded, each with how to close it. */
export function gapsTable(gaps: readonly GapInPack[]): SealedTable {
  return sealed<GapInPack>({
    name: 'gaps',
    rows: gaps,
    columns: [
      {
        name: 'about',
        kind: 'text',
        of: (gap, words) => {
          const record = 'own' in gap ? gap.own.record : gap.record;
          return record ? record.animal.animal : words.say('book.gaps.farm');
        },
      },
      {
        name: 'grade',
        kind: 'word',
        words: 'gap.grade',
        strongWhen: ['serious'],
        of: gradeOf,
      },
      { name: 'what', kind: 'text', of: (gap, words) => gapOfPackInWords(words, gap).message },
      { name: 'how_to_close', kind: 'text', of: (gap, words) => gapOfPackInWords(words, gap).close },
      {
        name: 'where',
        kind: 'word',
        words: 'audit.closable',
        of: (gap) => ('own' in gap ? gap.own.closable : gap.ofCase.closable),
      },
    ],
  });
}
