import { placeCases } from '../book/compose-book.js';
import { noDate } from '../book/open-cow-row.js';
import { composePageOne, type PageOne } from '../book/page-one.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { type Words, told, wordsOf } from '../reference/words.js';
import { plannedVisit } from '../schedule/next-lift.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { dayInWords } from '../words/day-and-place.js';
import type { MailLine, MailSection, MailSummary } from './mail-summary.js';

/** A farm's letter; `quiet`: nothing is open, due, withheld or the vet's, so a farm that had no mail yet need not have one. */
export type FarmSummary = MailSummary & { readonly quiet: boolean };

/**
 * What a farm is written on a day: the first side of its book, in the same order. What cannot wait, what is withheld or
 * not known, the farm's jobs, whom to pen, the vet, and a line for every open case.
 *
 * It is the book's own page, so that letter and book cannot say two things. Like the book it holds nothing of another farm.
 *
 * Checked: tests/post/compose-summary.test.ts
 */
export function composeSummary(
  practice: Practice,
  record: FarmRecord,
  today: CalendarDay,
  { priors }: Pick<Pooled, 'priors'>,
): FarmSummary {
  const { business } = practice;
  const { farm } = record;
  const language = farm.language ?? business.language ?? 'en-GB';
  const words = wordsOf(language);
  const cases = placeCases(workOutFarm(record, { business, today, priors }));
  const one = composePageOne(words, practice, record, cases, today);
  const { stop, urgent, withheld, farmJobs, pen, vet, cows } = one;
  const [name, day] = [told(farm.farm), dayInWords(words, today)];
  const [now] = urgent;
  const first = stop?.title ?? (now && words.say('mail.now', { number: now.number, job: now.job }));
  const isDated = cows.rows.some(({ out }) => out !== noDate);
  const isPenned = pen.numbers.length + pen.later.length > 0;
  return {
    language,
    subject:
      first === undefined
        ? words.say('mail.subject', { farm: name, day })
        : words.say('mail.subject-now', { farm: name, what: first, day }),
    heading: words.say('mail.heading', { farm: name, day }),
    lead: [],
    sections: [
      ...(stop ? [{ heading: stop.title, lines: [{ text: stop.text }], loud: true }] : []),
      ...(urgent.length > 0
        ? [{ heading: words.say('mail.urgent'), lines: urgentLines(one), loud: true }]
        : []),
      {
        heading: withheld?.heading ?? words.say('jobs.withheld.heading'),
        lines: withheld
          ? withheld.lines.map(({ what, text }) => ({ lead: what, text }))
          : [{ text: one.notWithheld }],
        loud: withheld !== undefined,
      },
      { heading: farmJobs.heading, lines: jobLines(words, farmJobs) },
      // While work has stopped nobody of ours comes.
      ...(stop ? [] : [penSection(words, pen, plannedVisit(farm, today) !== undefined)]),
      { heading: vet.heading, lines: vetLines(words, one) },
      { heading: cows.heading, lines: cows.rows.map(({ number, line }) => ({ lead: number, text: line })) },
    ],
    quiet:
      !stop &&
      !withheld &&
      !isPenned &&
      farmJobs.yesOrNo === undefined &&
      [urgent, farmJobs.rows, vet.rows, cows.rows].every(({ length }) => length === 0),
    foot: [
      ...(cows.rows.length + vet.rows.length > 0
        ? [words.say(isDated ? 'mail.prompts-dated' : 'mail.prompts')]
        : []),
      ...(withheld ? [withheld.register] : []),
      one.by === '' ? words.say('mail.reply') : words.say('mail.from', { who: one.by }),
    ],
  };
}

/** What cannot wait; of one animal the reason once. */
function urgentLines({ urgent }: PageOne): MailLine[] {
  return urgent.map(({ number, href, job, text }, at) => ({
    lead: number,
    text: urgent.findIndex((other) => other.href === href) === at ? text : job,
  }));
}

function jobLines(words: Words, { rows, nothing, yesOrNo }: PageOne['farmJobs']): MailLine[] {
  const asked = yesOrNo === undefined ? [] : [{ text: yesOrNo }];
  if (rows.length === 0) return asked.length > 0 ? asked : [{ text: nothing }];
  return [
    ...rows.map(({ number, job, when }) => ({ lead: number, text: words.say('mail.job', { job, when }) })),
    ...asked,
  ];
}

function penSection(
  words: Words,
  { heading, numbers, nothing, notes, later }: PageOne['pen'],
  isPlanned: boolean,
): MailSection {
  return {
    heading,
    lines: [
      numbers.length > 0 ? { lead: numbers.map(({ number }) => number).join(' ') } : { text: nothing },
      ...notes.map((text) => ({ text })),
      ...later.map(({ day, numbers: text }) => ({ lead: words.say('cow.named', { name: day }), text })),
      ...(isPlanned ? [] : [{ text: words.say('mail.no-next-visit') }]),
    ],
  };
}

/** The vet's list; why it is urgent is above. */
function vetLines(words: Words, { urgent, vet }: PageOne): MailLine[] {
  const rows = vet.rows.map(({ number, href, why, asked }) => {
    const isTold = urgent.some((item) => item.href === href && item.text.endsWith(why));
    return { lead: number, text: words.say(isTold ? 'mail.vet-told' : 'mail.vet', { why, asked }) };
  });
  return [...(rows.length > 0 ? rows : [{ text: vet.nothing }]), { text: vet.who }];
}
