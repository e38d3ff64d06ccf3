import type { GapInPack, AuditGap } from '../gaps/audit-gap.js';
import { gradeOf } from '../gaps/gaps-in-pack.js';
import { sealed, type SealedTable } from '../table/column.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { type GapInWords, gapInWords } from '../../words/compose-gap.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Values, Words } from '../../words/words.js';

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

/** What is missing, and how to close it. */
function gapOfPackInWords(words: Words, gap: GapInPack): GapInWords {
  return 'own' in gap ? ownGap(words, gap.own) : gapInWords(words, gap.record?.animal, gap.ofCase);
}

function ownGap(words: Words, { id, values }: AuditGap): GapInWords {
  const filled = Object.fromEntries(
    Object.entries(values).map(([key, value]) => [key, valueInWords(words, key, value)]),
  ) as Values;
  const which = values['which'];
  const say = (part: 'message' | 'close') => {
    const variant = `audit.gap.${id}.${part}-${String(which)}`;
    return words.say(which !== undefined && words.has(variant) ? variant : `audit.gap.${id}.${part}`, filled);
  };
  return { message: say('message'), close: say('close') };
}

function valueInWords(
  words: Words,
  key: string,
  value: string | number | readonly CalendarDay[],
): string | number {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return value.map((day) => dayInWords(words, day)).join(', ');
  switch (key) {
    case 'day':
    case 'from':
      return dayInWords(words, value);
    case 'rule':
      return words.say(`notice.rule.${value}.title`);
    case 'parts':
      return value
        .split(' ')
        .map((part) => words.say(`audit.part.${part}`))
        .join(', ');
    default:
      return value;
  }
}
