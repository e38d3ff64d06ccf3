import { composeJobs } from '../book/job-list.js';
import { placeCases } from '../book/compose-book.js';
import { composeVetList, composeWithheld } from '../book/withheld-list.js';
import { whatEveryFarmReads } from '../book/last-page.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { plannedVisit } from '../schedule/next-lift.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, told, wordsOf } from '../reference/words.js';
import { jobBeforeAllElse, jobsSection } from './jobs-section.js';
import type { MailSummary, MailEntry, MailSection } from './mail-summary.js';
import { standingSection } from './standing-section.js';
import type { Cell, TableSection } from '../book/page-parts.js';

/**
 * What a farm is written on a day: who needs what, by when and by whom; whose milk or meat is withheld; who is the vet's;
 * how each open case stands; what always holds.
 *
 * It is made of the book's own lists, by the book's own functions, so that letter and book cannot say two things. Like
 * the book it holds nothing of another farm.
 *
 * Checked: tests/post/compose-summary.test.ts
 */
export function composeSummary(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  { priors }: Pick<Pooled, 'priors'>,
): MailSummary {
  const { business } = practice;
  const language = farm.farm.language ?? business.language ?? 'en-GB';
  const words = wordsOf(language);
  const cases = placeCases(workOutFarm(farm, { business, today, priors }));
  const jobs = composeJobs(words, farm.farm, cases, today);
  const first = jobs.stop?.title ?? jobBeforeAllElse(words, jobs);
  const [name, day] = [told(farm.farm.farm), dayInWords(words, today)];
  const who = words.semicolons([business.business, business.trimmer, business.phone].map(told));
  const visit = plannedVisit(farm.farm, today);
  const always = whatEveryFarmReads(words);
  const telling = [
    jobsSection(words, jobs),
    tableSection(words, composeWithheld(words, farm.farm, cases, today)),
    tableSection(words, composeVetList(words, farm.farm, cases, today)),
    standingSection(words, cases, today),
  ];
  return {
    language,
    subject:
      first === undefined
        ? words.say('mail.subject', { farm: name, day })
        : words.say('mail.subject-now', { farm: name, what: first, day }),
    heading: words.say('mail.heading', { farm: name, day }),
    lead: [
      ...(jobs.stop ? [jobs.stop.title, jobs.stop.text] : []),
      ...(who === '' ? [] : [words.say('mail.from', { who })]),
      ...(jobs.stop
        ? []
        : [
            visit === undefined
              ? words.say('mail.no-next-visit')
              : words.say('mail.next-visit', { day: dayInWords(words, visit) }),
          ]),
    ],
    sections: [
      ...telling,
      {
        heading: always.heading,
        lead: [],
        groups: [{ entries: always.items.map((title) => ({ title, lines: [] })) }],
      },
    ],
    quiet: jobs.stop === undefined && telling.every(({ groups }) => groups.length === 0),
    foot: [
      business.phone === undefined
        ? words.say('mail.reply')
        : words.say('mail.reply-or-ring', { phone: told(business.phone) }),
      words.say('mail.copy', { day }),
    ],
  };
}

/** A table of the book with a line an animal, as a letter tells it: her, then each column by its name. */
function tableSection(words: Words, { heading, lead, table }: TableSection): MailSection {
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
