import { namedInWords, answerInWords } from '../../words/compose-notice.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Referral } from '../facts/referral.js';
import { sealed, type SealedTable } from '../table/column.js';
import { animalColumns } from './animal-columns.js';

/** What the vet was asked, and what was answered. */
export function referralsTable(referrals: readonly Referral[]): SealedTable {
  return sealed<Referral>({
    name: 'referrals',
    rows: referrals,
    columns: [
      ...animalColumns<Referral>(),
      { name: 'asked', kind: 'day', of: ({ asked }) => asked },
      { name: 'asked_by', kind: 'text', whole: true, of: ({ askedBy }) => askedBy },
      { name: 'why_asked', kind: 'text', of: ({ why }) => why },
      {
        name: 'asked_about',
        kind: 'text',
        beneath: true,
        blank: true,
        of: ({ about }, words) => namedInWords(words, about),
      },
      {
        name: 'standing',
        kind: 'word',
        words: 'audit.referral',
        strongWhen: ['awaited'],
        of: ({ answers }) => (answers.length === 0 ? 'awaited' : 'answered'),
      },
      { name: 'answered', kind: 'day', beneath: true, of: ({ answers }) => answers[0]?.day },
      { name: 'days_to_answer', kind: 'number', beneath: true, of: ({ days }) => days },
      {
        name: 'answers',
        kind: 'lines',
        blank: true,
        of: ({ answers }, words) =>
          answers.map(({ day, answer }) =>
            [
              words.say('audit.answer', {
                day: dayInWords(words, day),
                by: answer.by,
                reply: answer.reply,
              }),
              answerInWords(words, answer),
            ]
              .filter(Boolean)
              .join('; '),
          ),
      },
    ],
  });
}
