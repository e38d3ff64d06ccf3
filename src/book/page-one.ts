import { microDays } from '../figure/micro-strip.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { type DueItem, isJob } from '../schedule/due/due-item.js';
import { isUrgent } from '../schedule/due-items.js';
import { isOpen, nextLift, plannedVisit } from '../schedule/next-lift.js';
import { antimicrobialBaths, isWithheld, type Side, sides } from '../schedule/withheld.js';
import { jobInShort, stopInWords, whenDue } from '../words/compose-due.js';
import { calvingInShort, withheldInWords } from '../words/compose-withheld.js';
import { dayInShort, planDay, sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { PlacedCase } from './animal-page-data.js';
import { heightOf, highest, type Room, sumOf } from './fit.js';
import { cowLink, cowRow } from './open-cow-row.js';
import { vetLine } from './withheld-list.js';

/** A farm's first side: what stays out, what the farm does, whom to pen, what is the vet's, and every open cow. */
export type PageOne = ReturnType<typeof composePageOne>;

/**
 * The first side of a farm's book.
 *
 * Checked: tests/book/page-one.test.ts
 */
export function composePageOne(
  words: Words,
  { business }: Practice,
  { farm }: FarmRecord,
  cases: readonly PlacedCase[],
  today: CalendarDay,
  /** Of a short book: closed cases that are not in it. */
  leftOut?: number,
) {
  const of = { words, farm, today };
  const open = cases.filter(({ standing }) => !standing.closed);
  const { urgent, ...asked } = askedOfFarm(words, farm, cases, today);
  return {
    farm: told(farm.farm),
    by: words.commas([business.business, business.trimmer, business.phone].map(told)),
    kicker: words.say('book.cover.kicker'),
    asOn: { label: words.say('one.as-on'), value: planDay(words, today, '0000-01-01') },
    ...asked,
    urgent: urgent.map(({ one, item }) => {
      const job = sentenceCase(jobInShort(words, one.record.animal, item).job);
      return { ...cowLink(one), job, text: words.semicolons([job, vetLine(words, one, today)?.why]) };
    }),
    ...given({ withheld: withheldBar(of, cases) }),
    notWithheld: words.say('jobs.withheld.none'),
    vet: vetList(of, cases),
    cows: {
      heading:
        open.length === 0
          ? words.say('one.cows.none')
          : words.say('one.cows.heading', { count: open.length }),
      heads: ['cow', 'foot', 'what', 'stands', 'since', 'out', 'lift', 'sheet'].map((key) =>
        words.say(`one.cows.${key}`, { day: dayInShort(words, addDays(today, -microDays)) }),
      ),
      /** As many as the side holds; the others are overleaf. */
      rows: open.map((one) => cowRow(words, farm, one, today)),
      overleaf: [],
      note: words.dots([
        words.say('one.cows.note'),
        leftOut !== undefined &&
          words.say(`book.contents.left-out${leftOut === 0 ? '.none' : ''}`, { count: leftOut }),
      ]),
    },
  };
}

/**
 * What is asked of a farm: why work has stopped, what cannot wait, its jobs and whom to pen. Page one and the list for the
 * staff have it from here, so neither can ask less than the other.
 */
export function askedOfFarm(
  words: Words,
  farm: FarmRecord['farm'],
  cases: readonly PlacedCase[],
  today: CalendarDay,
) {
  const visit = plannedVisit(farm, today);
  const stop = stopInWords(words, cases);
  const stopped = cases.flatMap((one) => one.stop?.animals ?? []);
  const jobs = cases.flatMap((one) =>
    one.due.filter((item) => isOpen(item) && isJob(item)).map((item) => ({ one, item })),
  );
  return {
    visit: {
      label: words.say('one.our-visit'),
      value: visit === undefined ? words.say('one.no-visit') : planDay(words, visit, today),
    },
    /** Work on the farm has stopped, and what cannot wait until tomorrow: above all else. */
    ...given({ stop }),
    urgent: onceEach(
      // What stops work is said by the banner.
      jobs.filter(
        ({ one, item }) =>
          isUrgent(item) && !(item.urgency === 'stop-work' && stopped.includes(one.record.animal.animal)),
      ),
      words,
    ),
    farmJobs: farmJobs({ words, farm, today }, jobs),
    pen: penList({ words, farm, today }, cases, visit),
  };
}

/** Rows of jobs and of the vet's that a side lists, and open cows; the first that fit. */
const ways = [
  [99, 16],
  [12, 16],
  [9, 16],
  [9, 12],
  [6, 12],
  [6, 8],
  [4, 5],
  [4, 3],
  [3, 1],
  [3, 0],
] as const;

/** The page as it fits its side. What yields where there is no room: late rows of jobs, which are on the cows' own sheets, and open cows, which go overleaf. */
export function fitPageOne(words: Words, page: PageOne, { widthMm, heightMm }: Room): FittedPageOne {
  const way = ways.find((one) => pageOneMm(withRows(words, page, one), widthMm) <= heightMm);
  return withRows(words, page, way ?? ways.at(-1)!);
}

export type FittedPageOne = ReturnType<typeof withRows>;

function withRows(words: Words, page: PageOne, [most, cows]: (typeof ways)[number]) {
  const cut = <T>(rows: readonly T[]) => ({
    rows: rows.slice(0, most),
    ...(rows.length > most ? { more: words.say('one.more', { count: rows.length - most }) } : {}),
  });
  return {
    ...page,
    farmJobs: { ...page.farmJobs, ...cut(page.farmJobs.rows) },
    vet: { ...page.vet, ...cut(page.vet.rows) },
    cows: { ...page.cows, rows: page.cows.rows.slice(0, cows), overleaf: page.cows.rows.slice(cows) },
  };
}

/** A row of an open cow, mm. */
export const cowRowMm = 10.4;
const type = { pt: 9, lineHeight: 1.3 };
const small = { pt: 8.2, lineHeight: 1.3 };

function pageOneMm({ farmJobs: jobs, pen, vet, ...page }: FittedPageOne, widthMm: number): number {
  const share = (widthMm - 9) / 174;
  const [jobsMm, penMm, vetMm] = [78 * share, 46 * share, 50 * share];
  const bold = { weight: 'bold' } as const;
  const numbers = pen.numbers.map(({ number }) => number).join('  ');
  const jobRows = jobs.rows.map(({ job, when }) => 1.5 + heightOf(`${job} ${when}`, jobsMm - 18, type));
  const jobColumn = sumOf(jobRows) + heightOf(jobs.yesOrNo ?? '', jobsMm, small) + (jobs.more ? 5 : 0);
  const penNotes = [...pen.notes, ...pen.later.map(({ day, numbers: these }) => `${day} ${these}`)];
  const penColumn =
    heightOf(numbers, penMm, { pt: 15, lineHeight: 1.35, ...bold }) +
    sumOf(penNotes.map((note) => 1.2 + heightOf(note, penMm, small)));
  const vetRows = vet.rows.map(({ why, asked }) => 1.5 + heightOf(`${why}. ${asked}`, vetMm - 14, type));
  const vetColumn = sumOf(vetRows) + heightOf(vet.who, vetMm, small) + (vet.more ? 5 : 0);
  const withheld = page.withheld?.lines.map(({ what, text }) =>
    heightOf(`${what} ${text}`, widthMm - 48, { pt: 9.5, lineHeight: 1.3 }),
  );
  return (
    19 +
    (page.stop ? 14 + heightOf(page.stop.text, widthMm - 16, { pt: 10, lineHeight: 1.5, ...bold }) : 0) +
    sumOf(page.urgent.map(({ text }) => 0.6 + heightOf(text, widthMm - 16, { ...type, ...bold }))) +
    (6 + sumOf(withheld ?? [])) +
    highest([jobColumn, penColumn, vetColumn]) +
    16 +
    page.cows.rows.length * cowRowMm +
    6 +
    heightOf(`${page.cows.note} ${page.withheld?.register ?? ''}`, widthMm, small)
  );
}

interface OfFarm {
  readonly words: Words;
  readonly farm: FarmRecord['farm'];
  readonly today: CalendarDay;
}

type Job = { readonly one: PlacedCase; readonly item: DueItem };

/** Why nothing of the whole herd is known to be clear, if so. */
export function herdWithheld(words: Words, farm: FarmRecord['farm'], today: CalendarDay): string[] {
  return antimicrobialBaths(farm)
    .filter(({ from = '' }) => from <= today)
    .map(({ product }) => words.say('jobs.withheld.herd', { product: told(product) }));
}

/** Of each side one line: every animal with its last day and its clear day, and those of which it is not known. */
function withheldBar({ words, farm, today }: OfFarm, cases: readonly PlacedCase[]) {
  const held = cases.filter(({ withheld }) => isWithheld(withheld));
  const herd = antimicrobialBaths(farm)
    .filter(({ from = '' }) => from <= today)
    .map(({ product }) => words.say('jobs.withheld.herd', { product }));
  if (held.length + herd.length === 0) return undefined;
  const line = (side: Side) => {
    const animals = new Map<string, string[]>();
    for (const one of held) {
      const { text, isHeld } = withheldInWords(words, one.withheld[side], side, today);
      if (isHeld) animals.set(text, [...(animals.get(text) ?? []), one.record.animal.animal]);
    }
    return {
      what: words.say(`jobs.withheld.${side}`),
      text: words.dots(
        [...animals].map(([text, these]) => words.say('one.withheld', { animal: words.commas(these), text })),
      ),
    };
  };
  return {
    heading: words.say('cow.withheld'),
    lines: [
      ...herd.map((text) => ({ what: '', text })),
      ...sides.map(line).filter(({ text }) => text !== ''),
    ],
    register: words.say('jobs.withheld.lead'),
  };
}

/** What the farm does, the late first; and of what was asked and nobody said whether it was done, a question. */
function farmJobs({ words, today }: OfFarm, jobs: readonly Job[]) {
  const farms = jobs.filter(({ item }) => item.who === 'farm' && !isUrgent(item));
  const asked = farms.filter(({ item }) => item.what === 'farm-task-done');
  const rows = farms
    .filter(({ item }) => item.what !== 'farm-task-done')
    .toSorted(
      (a, b) =>
        Number(b.item.standing === 'overdue') - Number(a.item.standing === 'overdue') ||
        (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : 0),
    );
  const questions = asked.map(({ one, item }) =>
    words.say('one.farm.asked', {
      animal: one.record.animal.animal,
      task: words.say(`vocabulary.task.${item.task ?? 'ring if worse'}`),
      day: dayInShort(words, item.by),
    }),
  );
  const list = words.dots(questions);
  return {
    heading: words.say('one.farm.heading'),
    nothing: words.say('one.farm.none'),
    rows: onceEach(rows, words).map(({ one, item }) => {
      const { job, marks } = jobInShort(words, one.record.animal, item);
      return {
        ...cowLink(one),
        job: words.semicolons([sentenceCase(job), ...marks.slice(0, 1)]),
        when: whenDue(words, item, today, planDay(words, item.by, today)),
        late: item.standing === 'overdue',
      };
    }),
    ...given({ yesOrNo: list === '' ? undefined : words.say('one.farm.yes-or-no', { list }) }),
  };
}

/** A job that is asked of one cow for several days once, at the first. */
function onceEach(jobs: readonly Job[], words: Words): Job[] {
  const seen = new Set<string>();
  return jobs.filter(({ one, item }) => {
    const key = `${one.id} ${jobInShort(words, one.record.animal, item).job}`;
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}

/** Who is lifted on the day of the visit, in large figures; then the later days. A closed case may still bear a block. */
function penList(
  { words, farm, today }: OfFarm,
  cases: readonly PlacedCase[],
  visit: CalendarDay | undefined,
) {
  const lifted = cases.flatMap((one) => {
    const day = nextLift(farm, one, today);
    return day === undefined ? [] : [{ one, day: visit !== undefined && day <= visit ? visit : day }];
  });
  const days = [...new Set(lifted.map(({ day }) => day))].sort();
  const first = visit ?? days[0];
  const on = (day: CalendarDay | undefined) =>
    lifted.filter((each) => each.day === day).map(({ one }) => one);
  return {
    heading:
      first === undefined
        ? words.say('one.pen.heading-none')
        : words.say('one.pen.heading', { day: planDay(words, first, today) }),
    numbers: on(first).map(cowLink),
    nothing: words.say('one.pen.none'),
    notes: lifted.flatMap(({ one }) =>
      one.calvingNear
        ? [
            words.say('one.pen.calving', {
              animal: one.record.animal.animal,
              near: calvingInShort(words, one.calvingNear),
            }),
          ]
        : [],
    ),
    later: days
      .filter((day) => day !== first)
      .map((day) => ({
        day: planDay(words, day, today),
        numbers: on(day)
          .map(({ record }) => record.animal.animal)
          .join(' '),
      })),
  };
}

function vetList({ words, farm: { vet }, today }: OfFarm, cases: readonly PlacedCase[]) {
  const who = words.commas([vet?.practice, vet?.name, vet?.phone].map(told));
  return {
    heading: words.say('one.vet.heading'),
    nothing: words.say('one.vet.none'),
    rows: cases.flatMap((one) => {
      const line = vetLine(words, one, today);
      const his = one.due.filter((item) => item.what === 'vet-work' && isOpen(item));
      return [
        ...(line
          ? [
              {
                why: line.why,
                asked: sentenceCase(line.asked),
                late: line.ringAgain || line.urgency !== 'notice',
              },
            ]
          : []),
        ...his.map((item) => ({
          why: sentenceCase(jobInShort(words, one.record.animal, item).job),
          asked: sentenceCase(whenDue(words, item, today, planDay(words, item.by, today))),
          late: item.standing === 'overdue',
        })),
      ].map((row) => ({ ...cowLink(one), ...row }));
    }),
    who: who === '' ? words.say('jobs.vet.no-practice') : who,
  };
}
