import { pageStyle } from '../book/book-style.js';
import { placeCases } from '../book/compose-book.js';
import { heightOf, highest, type Room, roomOn } from '../book/fit.js';
import type { PrintedPage } from '../book/layout-css.js';
import { askedOfFarm, type FittedPageOne, herdWithheld, type PageOne } from '../book/page-one.js';
import { renderPage } from '../book/render-page.js';
import { standingNotices } from '../book/withheld-list.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { Language, StaffLanguage } from '../record/words.js';
import { urgencyOf } from '../reference/notices.js';
import { standingWords } from '../reference/standing-words.js';
import { told, type Words, wordsOf } from '../reference/words.js';
import type { CaseWork } from '../schedule/case-work.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { isWithheld } from '../schedule/withheld.js';
import { jobInShort } from '../words/compose-due.js';
import { heldUntil } from '../words/compose-withheld.js';
import { dayInWords, placeInWords, planDay, sentenceCase } from '../words/day-and-place.js';

/** The list for a farm's staff, in one language of theirs, on one side. */
export interface StaffPage
  extends
    PrintedPage,
    Pick<PageOne, 'farm' | 'by' | 'kicker' | 'asOn' | 'visit' | 'stop'>,
    Pick<FittedPageOne, 'farmJobs'> {
  /** What names and other words of a record are read in. */
  readonly recordLanguage: Language;
  /** In large type, where there is room. */
  readonly isLarge: boolean;
  readonly counts: readonly string[];
  readonly urgent: {
    readonly heading: string;
    readonly rows: readonly { readonly number: string; readonly job: string; readonly text: string }[];
  };
  readonly tank: {
    readonly heading: string;
    readonly heads: readonly string[];
    readonly herd: readonly string[];
    readonly rows: readonly { readonly number: string; readonly milk: string; readonly meat: string }[];
    readonly nothing: string;
    readonly register: string;
  };
  /** Not while work has stopped: then nobody of ours comes. */
  readonly pen?: PageOne['pen'];
  readonly ring: {
    readonly heading: string;
    readonly lead: string;
    readonly signs: readonly string[];
    readonly lines: readonly string[];
  };
}

/** A farm's lists for its staff as self-contained HTML, one for each language its farm.md names, by the name of its file. */
export function staffPages(
  practice: Practice,
  record: FarmRecord,
  today: CalendarDay,
  { priors }: Pick<Pooled, 'priors'>,
): { readonly language: StaffLanguage; readonly name: string; readonly html: string }[] {
  const languages = new Set(record.farm['staff-languages']);
  if (languages.size === 0) return [];
  const cases = workOutFarm(record, { business: practice.business, today, priors });
  return [...languages].map((language) => ({
    language,
    name: `${record.slug}-staff-${language}`,
    html: renderStaff(composeStaff(language, practice, record, cases, today)),
  }));
}

/**
 * The list for the staff: what page one of the book keeps out of the tank and asks of the farm, and when to ring. Its jobs
 * are those of page one, shortened only where the side has no room; what stays out of the tank is never shortened.
 *
 * Checked: tests/post/staff-page.test.ts, tests/laws/staff-laws.test.ts
 */
export function composeStaff(
  language: StaffLanguage,
  { business }: Practice,
  { farm }: FarmRecord,
  work: readonly CaseWork[],
  today: CalendarDay,
): StaffPage {
  const words = wordsOf(language);
  const cases = placeCases(work);
  const { urgent, pen, ...asked } = askedOfFarm(words, farm, cases, today);
  const say = (key: string) => words.say(`staff.${key}`);
  const name = told(farm.farm);
  const title = words.say('staff.title', { farm: name, day: dayInWords(words, today) });
  const paper = farm.paper ?? 'A4';
  const vet = words.commas([farm.vet?.practice, farm.vet?.name, farm.vet?.phone].map(told));
  const page: StaffPage = {
    language,
    recordLanguage: farm.language ?? business.language ?? 'en-GB',
    paper,
    isLarge: true,
    title,
    running: title,
    pageWord: words.say('book.page'),
    skip: say('skip'),
    farm: name,
    by: words.commas([business.business, business.trimmer, business.phone].map(told)),
    kicker: say('kicker'),
    asOn: { label: words.say('one.as-on'), value: planDay(words, today, '0000-01-01') },
    counts: [say('doubt'), say('counts')],
    ...asked,
    urgent: {
      heading: say('urgent'),
      rows: urgent.map(({ one, item }) => {
        const job = sentenceCase(jobInShort(words, one.record.animal, item).job);
        return {
          number: one.record.animal.animal,
          job,
          text: words.semicolons([job, ...reasonOf(words, one)]),
        };
      }),
    },
    tank: {
      heading: say('tank'),
      heads: ['cow', 'milk', 'meat'].map(say),
      herd: herdWithheld(words, farm, today),
      rows: cases
        .filter(({ withheld }) => isWithheld(withheld))
        .map(({ record, withheld }) => ({
          number: record.animal.animal,
          milk: heldUntil(words, withheld.milk, today),
          meat: heldUntil(words, withheld.meat, today),
        })),
      nothing: words.say('jobs.withheld.none'),
      register: words.say('jobs.withheld.lead'),
    },
    ...(asked.stop ? {} : { pen }),
    ring: {
      heading: words.say('ring.heading'),
      lead: words.say('ring.lead'),
      signs: signs.map((rule) => words.say(`red.${rule}`)),
      lines: [
        ...['stop', 'down', 'wrap', 'block'].map((key) => words.say(`ring.${key}`)),
        vet === '' ? words.say('jobs.vet.no-practice') : words.say('ring.vet', { who: vet }),
      ],
    },
  };
  return fitted(page, words, roomOn(paper));
}

/** What anybody may come to see on any cow, as the book lists it; and maggots, which are dealt with the same day. */
const signs = [...standingWords.farmSigns.filter((rule) => urgencyOf(rule) === 'same-day'), 'maggots'];

/** Why it is urgent, and on which foot. */
function reasonOf(words: Words, one: CaseWork): string[] {
  const [first] = standingNotices(one).filter(({ rule }) => words.has(`red.${rule}`));
  if (!first) return [];
  return [words.say(`red.${first.rule}`), ...(first.foot ? [placeInWords(words, first.foot)] : [])];
}

/**
 * As it fits its side: in large type, else in small, with as many jobs as there is room for; where that is not enough, all
 * animals of which the same is said in one row.
 */
function fitted(page: StaffPage, words: Words, room: Room): StaffPage {
  const { farmJobs, urgent, tank } = page;
  const all = farmJobs.rows.length;
  const jobsAlone = urgent.rows.map((row) => ({ ...row, text: row.job }));
  const inShort: StaffPage = {
    ...page,
    urgent: { ...urgent, rows: together(words, jobsAlone, ({ job }) => job) },
    tank: { ...tank, rows: together(words, tank.rows, ({ milk, meat }) => `${milk} | ${meat}`) },
  };
  const ways = [
    { of: page, isLarge: true, least: all },
    { of: page, isLarge: false, least: Math.min(6, all) },
    { of: inShort, isLarge: false, least: 0 },
  ].flatMap(({ of, isLarge, least }) =>
    Array.from({ length: all - least + 1 }, (_, cut): StaffPage => {
      const more = cut > 0 && words.say('one.more', { count: cut });
      const jobs = { ...farmJobs, rows: farmJobs.rows.slice(0, all - cut), ...(more ? { more } : {}) };
      return { ...of, isLarge, farmJobs: jobs };
    }),
  );
  return ways.find((way) => staffMm(way, room.widthMm) <= room.heightMm) ?? ways.at(-1)!;
}

/** Rows that say the same as one, with the numbers of all its animals. */
function together<Row extends { readonly number: string }>(
  words: Words,
  rows: readonly Row[],
  said: (row: Row) => string,
): Row[] {
  return [...new Set(rows.map(said))].map((each) => {
    const same = rows.filter((row) => said(row) === each);
    return { ...same[0]!, number: words.commas(same.map(({ number }) => number)) };
  });
}

/** Height of the list on paper, mm: change it together with staff.css. */
function staffMm(page: StaffPage, widthMm: number): number {
  const { stop, urgent, tank, farmJobs, pen, ring, isLarge } = page;
  const plain = { pt: isLarge ? 10.5 : 9, lineHeight: 1.3 };
  const bold = { ...plain, weight: 'bold' } as const;
  const small = { pt: 8.2, lineHeight: 1.3 };
  const sum = <T>(all: readonly T[], mm: (one: T) => number): number =>
    all.reduce((whole, one) => whole + mm(one), 0);
  const [jobs, penned, half] = [(widthMm - 6) * 0.6, (widthMm - 6) * 0.4, (widthMm - 6) / 2];
  const numberMm = isLarge ? 17 : 34;
  const held = (widthMm - 9 - numberMm) / 2 - 5;
  const ticked = (text: string, width: number) => 1.6 + heightOf(text, width - 22, plain);
  const asked =
    sum(farmJobs.rows, ({ job, when }) => ticked(`${job} ${when}`, jobs)) +
    heightOf(farmJobs.yesOrNo ?? '', jobs, small) +
    heightOf(farmJobs.more ?? '', jobs, small);
  const lifted =
    heightOf(pen?.numbers.map(({ number }) => number).join('  ') ?? '', penned, {
      pt: 15,
      lineHeight: 1.35,
      weight: 'bold',
    }) +
    sum(pen?.notes ?? [], (note) => 1.2 + heightOf(note, penned, small)) +
    sum(pen?.later ?? [], ({ day, numbers }) => 1.2 + heightOf(`${day} ${numbers}`, penned, small));
  return (
    21 +
    heightOf(page.counts.join(' '), widthMm, { ...bold, pt: 10 }) +
    (stop ? 14 + heightOf(stop.text, widthMm - 16, { pt: 10, lineHeight: 1.5, weight: 'bold' }) : 0) +
    (urgent.rows.length > 0
      ? 9 + sum(urgent.rows, ({ number, text }) => ticked(`${number} ${text}`, widthMm))
      : 0) +
    20 +
    sum(tank.herd, (line) => heightOf(line, widthMm - 8, bold)) +
    sum(
      tank.rows,
      ({ number, milk, meat }) =>
        1.5 +
        highest([
          heightOf(number, numberMm - 5, bold),
          heightOf(milk, held, plain),
          heightOf(meat, held, plain),
        ]),
    ) +
    12 +
    highest([asked, lifted]) +
    13 +
    sum(ring.signs, (sign) => heightOf(sign, half - 5, plain)) / 2 +
    sum(ring.lines, (line) => 0.8 + heightOf(line, widthMm, plain))
  );
}

/** Its page data as one self-contained HTML file; names and other words of the record are marked as of its language. */
function renderStaff(page: StaffPage): string {
  const html = renderPage('staff.njk', page, pageStyle(page, 'book.css', 'staff.css'));
  return html.replaceAll('<bdi>', `<bdi lang="${page.recordLanguage}">`);
}
