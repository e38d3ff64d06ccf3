import { microDays } from '../figure/micro-strip.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { type DueItem, isJob } from '../schedule/due/due-item.js';
import { isUrgent } from '../schedule/due-items.js';
import { isOpen, nextLift, plannedVisit } from '../schedule/next-lift.js';
import { antimicrobialBaths, isWithheld, type Side, sides } from '../schedule/withheld.js';
import { jobInShort, stopInWords, whenDue, type StopInWords } from '../words/compose-due.js';
import { calvingInShort, withheldInWords } from '../words/compose-withheld.js';
import { dayInShort, planDay, sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { PlacedCase } from './animal-page-data.js';
import { heightOf, highest, type Room } from './fit.js';
import { cowLink, type CowRow, cowRow, type OfCow } from './open-cow-row.js';
import { vetLine } from './withheld-list.js';

/** A farm's first side: what stays out, what the farm does, whom to pen, what is the vet's, and every open cow. */
export interface PageOne {
  readonly farm: string;
  readonly by: string;
  readonly kicker: string;
  readonly asOn: { readonly label: string; readonly value: string };
  readonly visit: { readonly label: string; readonly value: string };
  /** Work on the farm stands still, and what cannot wait until tomorrow: above all else. */
  readonly stop?: StopInWords;
  readonly urgent: readonly (OfCow & { readonly job: string; readonly text: string })[];
  readonly withheld?: {
    readonly heading: string;
    readonly lines: readonly { readonly what: string; readonly text: string }[];
    readonly register: string;
  };
  readonly notWithheld: string;
  readonly farmJobs: {
    readonly heading: string;
    readonly nothing: string;
    readonly rows: readonly (OfCow & {
      readonly job: string;
      readonly when: string;
      readonly late: boolean;
    })[];
    /** How many more stand on the cows' own sheets. */
    readonly more?: string;
    /** Asked, and nobody said whether it was done. */
    readonly yesOrNo?: string;
  };
  readonly pen: {
    readonly heading: string;
    readonly numbers: readonly OfCow[];
    readonly nothing: string;
    readonly notes: readonly string[];
    readonly later: readonly { readonly day: string; readonly numbers: string }[];
  };
  readonly vet: {
    readonly heading: string;
    readonly nothing: string;
    readonly rows: readonly (OfCow & {
      readonly why: string;
      readonly asked: string;
      readonly late: boolean;
    })[];
    readonly more?: string;
    readonly who: string;
  };
  readonly cows: {
    readonly heading: string;
    readonly heads: readonly string[];
    /** As many as the side holds; the others stand overleaf. */
    readonly rows: readonly CowRow[];
    readonly overleaf: readonly CowRow[];
    readonly note: string;
  };
}

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
): PageOne {
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
    ...withheldBar(words, farm, cases, today),
    notWithheld: words.say('jobs.withheld.none'),
    vet: vetList(words, farm, cases, today),
    cows: {
      heading:
        open.length === 0
          ? words.say('one.cows.none')
          : words.say('one.cows.heading', { count: open.length }),
      heads: ['cow', 'foot', 'what', 'stands', 'since', 'out', 'lift', 'sheet'].map((key) =>
        words.say(`one.cows.${key}`, { day: dayInShort(words, addDays(today, -microDays)) }),
      ),
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
 * What is asked of a farm: why work stands still, what cannot wait, its jobs and whom to pen. Page one and the list for the
 * staff have it from here, so neither can ask less than the other.
 */
export function askedOfFarm(
  words: Words,
  farm: FarmRecord['farm'],
  cases: readonly PlacedCase[],
  today: CalendarDay,
): Pick<PageOne, 'visit' | 'stop' | 'farmJobs' | 'pen'> & { readonly urgent: readonly Job[] } {
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
    ...(stop ? { stop } : {}),
    urgent: onceEach(
      // What stops work is said by the banner.
      jobs.filter(
        ({ one, item }) =>
          isUrgent(item) && !(item.urgency === 'stop-work' && stopped.includes(one.record.animal.animal)),
      ),
      words,
    ),
    farmJobs: farmJobs(words, jobs, today),
    pen: penList(words, farm, cases, today, visit),
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

/** The page as it fits its side. What yields where there is no room: late rows of jobs, which stand on the cows' own sheets, and open cows, which go overleaf. */
export function fitPageOne(words: Words, page: PageOne, room: Room): PageOne {
  const cut = <T>(rows: readonly T[], most: number) => ({
    rows: rows.slice(0, most),
    ...(rows.length > most ? { more: words.say('one.more', { count: rows.length - most }) } : {}),
  });
  const wayOf = ([most, cows]: (typeof ways)[number]): PageOne => ({
    ...page,
    farmJobs: { ...page.farmJobs, ...cut(page.farmJobs.rows, most) },
    vet: { ...page.vet, ...cut(page.vet.rows, most) },
    cows: { ...page.cows, rows: page.cows.rows.slice(0, cows), overleaf: page.cows.rows.slice(cows) },
  });
  return wayOf(ways.find((way) => pageOneMm(wayOf(way), room.widthMm) <= room.heightMm) ?? ways.at(-1)!);
}

/** A row of an open cow, mm. */
export const cowRowMm = 10.4;
const type = { pt: 9, lineHeight: 1.3 };
const small = { pt: 8.2, lineHeight: 1.3 };

function pageOneMm(page: PageOne, widthMm: number): number {
  const share = (widthMm - 9) / 174;
  const [jobs, pen, vet] = [78 * share, 46 * share, 50 * share];
  const sum = (heights: readonly number[]): number => heights.reduce((all, one) => all + one, 0);
  const withheld = page.withheld?.lines.map(({ what, text }) =>
    heightOf(`${what} ${text}`, widthMm - 48, { pt: 9.5, lineHeight: 1.3 }),
  );
  const columns = [
    sum(page.farmJobs.rows.map(({ job, when }) => 1.5 + heightOf(`${job} ${when}`, jobs - 18, type))) +
      heightOf(page.farmJobs.yesOrNo ?? '', jobs, small) +
      (page.farmJobs.more ? 5 : 0),
    heightOf(page.pen.numbers.map(({ number }) => number).join('  '), pen, {
      pt: 15,
      lineHeight: 1.35,
      weight: 'bold',
    }) +
      sum(page.pen.notes.map((note) => 1.2 + heightOf(note, pen, small))) +
      sum(page.pen.later.map(({ day, numbers }) => 1.2 + heightOf(`${day} ${numbers}`, pen, small))),
    sum(page.vet.rows.map(({ why, asked }) => 1.5 + heightOf(`${why}. ${asked}`, vet - 14, type))) +
      heightOf(page.vet.who, vet, small) +
      (page.vet.more ? 5 : 0),
  ];
  return (
    19 +
    (page.stop
      ? 14 + heightOf(page.stop.text, widthMm - 16, { pt: 10, lineHeight: 1.5, weight: 'bold' })
      : 0) +
    sum(page.urgent.map(({ text }) => 0.6 + heightOf(text, widthMm - 16, { ...type, weight: 'bold' }))) +
    (withheld ? 6 + sum(withheld) : 6) +
    highest(columns) +
    16 +
    page.cows.rows.length * cowRowMm +
    6 +
    heightOf(`${page.cows.note} ${page.withheld?.register ?? ''}`, widthMm, small)
  );
}

type Job = { readonly one: PlacedCase; readonly item: DueItem };

/** Why nothing of the whole herd is known to be clear, if so. */
export function herdWithheld(words: Words, farm: FarmRecord['farm'], today: CalendarDay): string[] {
  return antimicrobialBaths(farm)
    .filter(({ from = '' }) => from <= today)
    .map(({ product }) => words.say('jobs.withheld.herd', { product: told(product) }));
}

/** Of each side one line: every animal with its last day and its clear day, and those of which it is not known. */
function withheldBar(
  words: Words,
  farm: FarmRecord['farm'],
  cases: readonly PlacedCase[],
  today: CalendarDay,
): Pick<PageOne, 'withheld'> {
  const held = cases.filter(({ withheld }) => isWithheld(withheld));
  const herd = herdWithheld(words, farm, today);
  if (held.length + herd.length === 0) return {};
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
    withheld: {
      heading: words.say('cow.withheld'),
      lines: [
        ...herd.map((text) => ({ what: '', text })),
        ...sides.map(line).filter(({ text }) => text !== ''),
      ],
      register: words.say('jobs.withheld.lead'),
    },
  };
}

const asks = new Set<DueItem['what']>(['farm-task-done']);

function farmJobs(words: Words, jobs: readonly Job[], today: CalendarDay): PageOne['farmJobs'] {
  const farms = jobs.filter(({ item }) => item.who === 'farm' && !isUrgent(item));
  const asked = farms.filter(({ item }) => asks.has(item.what));
  const rows = farms
    .filter(({ item }) => !asks.has(item.what))
    .toSorted(
      (a, b) =>
        Number(b.item.standing === 'overdue') - Number(a.item.standing === 'overdue') ||
        (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : 0),
    );
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
    ...(asked.length === 0
      ? {}
      : {
          yesOrNo: words.say('one.farm.yes-or-no', {
            list: words.dots(
              asked.map(({ one, item }) =>
                words.say('one.farm.asked', {
                  animal: one.record.animal.animal,
                  task: words.say(`vocabulary.task.${item.task ?? 'ring if worse'}`),
                  day: dayInShort(words, item.by),
                }),
              ),
            ),
          }),
        }),
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
  words: Words,
  farm: FarmRecord['farm'],
  cases: readonly PlacedCase[],
  today: CalendarDay,
  visit: CalendarDay | undefined,
): PageOne['pen'] {
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

function vetList(
  words: Words,
  { vet }: FarmRecord['farm'],
  cases: readonly PlacedCase[],
  today: CalendarDay,
): PageOne['vet'] {
  const who = words.commas([vet?.practice, vet?.name, vet?.phone].map(told));
  return {
    heading: words.say('one.vet.heading'),
    nothing: words.say('one.vet.none'),
    rows: cases.flatMap((one) => {
      const line = vetLine(words, one, today);
      const asked = line && {
        why: line.why,
        asked: sentenceCase(line.asked),
        late: line.ringAgain || line.urgency !== 'notice',
      };
      const his = one.due.filter((item) => item.what === 'vet-work' && isOpen(item));
      const doing = his.map((item) => ({
        why: sentenceCase(jobInShort(words, one.record.animal, item).job),
        asked: sentenceCase(whenDue(words, item, today, planDay(words, item.by, today))),
        late: item.standing === 'overdue',
      }));
      return [...(asked ? [asked] : []), ...doing].map((row) => ({ ...cowLink(one), ...row }));
    }),
    who: who === '' ? words.say('jobs.vet.no-practice') : who,
  };
}
