import type { Pooled } from '../herd/pooled-on.js';
import type { Practice } from '../record/practice.js';
import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { PlacedCase } from '../book/animal-page-data.js';
import type { FarmWork } from '../round/round-of.js';
import type { FarmSection } from '../book/page-parts.js';
import { tableByColumns } from '../round/page/table-by-columns.js';
import { standingOrder } from '../healing/standing.js';
import { whenDue, jobInShort } from '../words/compose-due.js';
import { dayInWords, mm } from '../words/day-and-place.js';
import { caseChip, nameOf } from '../words/compose-standing.js';
import { type Words, told } from '../reference/words.js';
import type { JudgedReading, LesionGrowth, ReadingKind } from '../growth/animal-growth.js';
import { monthOf } from '../record/period.js';

/** What the overview is made of: all farms that read, worked out for a day, and what they teach together. */
export interface OfBusiness {
  readonly practice: Practice;
  readonly farms: readonly OverviewFarm[];
  readonly pooled: Pooled;
  readonly today: CalendarDay;
  /** Farms left out because their files have errors, by their folder. */
  readonly refused: readonly string[];
}

interface OverviewFarm extends FarmWork {
  /** In the order of the farm's book. */
  readonly placed: readonly PlacedCase[];
}

/** A case with the farm it is on. */
export interface OnFarm {
  readonly farm: OverviewFarm;
  readonly one: PlacedCase;
}

/** All cases that are open on the day. */
export function openCases({ farms }: OfBusiness): OnFarm[] {
  return farms.flatMap(casesOn).filter(({ one }) => !one.standing.closed);
}

/** An animal where several farms are listed: her number and her farm. Such as: 2086, Quernholt. */
export function animalOnFarm({ farm, one }: OnFarm): string {
  return `${one.record.animal.animal}, ${told(farm.record.farm.farm)}`;
}

/** Open cases of each farm, how many are lame; and of all its cases what is overdue and the vet's, as its book has it. */
export function openByFarm(words: Words, business: OfBusiness): FarmSection {
  const open = openCases(business);
  const all = business.farms.reduce((sum, { cases }) => sum + cases.length, 0);
  const section = { id: 'open', heading: words.say('overview.open.heading') };
  const openOf = (of: OverviewFarm) => open.filter(({ farm }) => farm === of);
  const overdueOf = (farm: OverviewFarm, who: 'trimmer' | 'farm') =>
    String(
      casesOn(farm)
        .flatMap(overdueJobs)
        .filter((item) => item.who === who).length,
    );
  if (business.farms.length === 0) return { ...section, lead: [words.say('overview.open.no-farm')] };
  return {
    ...section,
    lead: [howMany(words, open, all), ...longestOverdue(words, business)],
    table: tableByColumns(words, business.farms, {
      id: 'open-table',
      caption: words.say('overview.open.caption'),
      area: 'overview',
      numbers: ['cases', 'overdue', 'ours', 'farms', 'vet', 'lame'].map((key) => `open.${key}`),
      cells: {
        farm: ({ record }) => told(record.farm.farm),
        'open.cases': (farm) =>
          words.say('overview.of', { part: openOf(farm).length, whole: farm.cases.length }),
        'open.overdue': (farm) => String(casesOn(farm).filter(isOverdue).length),
        'open.ours': (farm) => overdueOf(farm, 'trimmer'),
        'open.farms': (farm) => overdueOf(farm, 'farm'),
        'open.vet': ({ placed }) =>
          String(placed.filter(({ notices }) => notices.some(({ standing }) => standing)).length),
        'open.lame': (farm) => {
          const scored = openOf(farm).flatMap(({ one }) => one.standing.gait.last ?? []);
          return words.say('overview.of', {
            part: scored.filter(({ lame }) => lame).length,
            whole: scored.length,
          });
        },
      },
    }),
  };
}

function casesOn(farm: OverviewFarm): OnFarm[] {
  return farm.placed.map((one) => ({ farm, one }));
}

function howMany(words: Words, open: readonly OnFarm[], all: number): string {
  if (all === 0) return words.say('overview.open.no-case');
  if (open.length === 0) return words.say('overview.open.lead-none', { all });
  return words.say('overview.open.lead', { open: open.length, all, overdue: open.filter(isOverdue).length });
}

/** What has waited longest, so that it is not lost among the counts. */
function longestOverdue(words: Words, { farms, today }: OfBusiness): string[] {
  const [first] = farms
    .flatMap(casesOn)
    .flatMap((on) => overdueJobs(on).map((item) => ({ on, item })))
    .sort((a, b) => (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : 0));
  if (first === undefined) return [];
  const { on, item } = first;
  return [
    words.say('overview.open.longest', {
      animal: animalOnFarm(on),
      when: whenDue(words, item, today, dayInWords(words, item.by)),
      job: jobInShort(words, on.one.record.animal, item).job,
    }),
  ];
}

/** Open cases of all farms by status, worst first. */
export function openByStanding(words: Words, business: OfBusiness): FarmSection | undefined {
  const open = openCases(business);
  if (open.length === 0) return undefined;
  const chips = [...new Set(open.toSorted(byStanding).map(({ one }) => caseChip(words, one.standing)))];
  const suchAs = (chip: string) => open.filter(({ one }) => caseChip(words, one.standing) === chip);
  return {
    id: 'standing',
    heading: words.say('overview.standing.heading'),
    lead: [],
    table: tableByColumns(words, chips, {
      id: 'standing-table',
      caption: words.say('overview.standing.caption', { count: open.length }),
      area: 'overview.standing',
      numbers: ['cases'],
      cells: {
        how: (chip) => chip,
        cases: (chip) => words.say('overview.of', { part: suchAs(chip).length, whole: open.length }),
        which: (chip) => whichByFarm(words, suchAs(chip)),
      },
    }),
  };
}

function overdueJobs({ one }: OnFarm) {
  return one.due.filter(({ standing }) => standing === 'overdue');
}

function isOverdue(one: OnFarm): boolean {
  return overdueJobs(one).length > 0;
}

function byStanding(a: OnFarm, b: OnFarm): number {
  return rank(a) - rank(b);
}

function rank({ one }: OnFarm): number {
  const { leading } = one.standing;
  return leading ? standingOrder.indexOf(leading.standing) : standingOrder.length;
}

/** Such as: Quernholt 2086, 2117; Harrowmere 31. */
function whichByFarm(words: Words, cases: readonly OnFarm[]): string {
  const farms = [...new Set(cases.map(({ farm }) => farm))].map((farm) => {
    const own = cases.filter((one) => one.farm === farm);
    return words.say('overview.standing.on-farm', {
      farm: told(farm.record.farm.farm),
      animals: words.commas(own.map(({ one }) => one.record.animal.animal)),
    });
  });
  return words.semicolons(farms);
}

const notable: ReadonlySet<ReadingKind> = new Set(['ran-up', 'at-coronet', 'held']);

interface Told extends OnFarm {
  readonly gap: LesionGrowth;
  readonly reading: JudgedReading;
  readonly kind: 'ran-up' | 'at-coronet' | 'held' | 'may-be-held';
}

/**
 * Gaps that ran up, reached the coronet or were held, at a reading since the first day of last month; out of how many
 * readings that could be compared with growth. A gap found held over several readings is reported at the last of them.
 */
export function ranUpOrHeld(words: Words, business: OfBusiness): FarmSection {
  const since = firstOfLastMonth(business.today);
  const gaps = business.farms.flatMap((farm) =>
    farm.placed.flatMap((one) => one.growth.lesions.map((gap) => ({ farm, one, gap }))),
  );
  const compared = gaps.flatMap(({ gap }) =>
    gap.readings.filter(({ date, expectedMm }) => date >= since && expectedMm !== undefined),
  );
  const rows = gaps
    .flatMap((on): Told[] =>
      on.gap.readings
        .filter(({ date }) => date >= since)
        .flatMap((reading) => {
          const kind = kindOf(on.gap, reading);
          return kind ? [{ ...on, reading, kind }] : [];
        }),
    )
    .sort((a, b) => (a.reading.date > b.reading.date ? -1 : a.reading.date < b.reading.date ? 1 : 0));
  return {
    id: 'ran-up',
    heading: words.say('overview.ran-up.heading'),
    lead: [
      words.say('overview.ran-up.lead', {
        day: dayInWords(words, since),
        count: compared.length,
        up: rows.filter(({ kind }) => kind === 'ran-up' || kind === 'at-coronet').length,
        held: rows.filter(({ kind }) => kind === 'held').length,
        maybe: rows.filter(({ kind }) => kind === 'may-be-held').length,
      }),
    ],
    ...(rows.length > 0
      ? {
          table: tableByColumns(words, rows, {
            id: 'ran-up-table',
            caption: words.say('overview.ran-up.caption', { count: rows.length }),
            area: 'overview.ran-up',
            cells: {
              animal: animalOnFarm,
              gap: ({ one, gap }) => nameOf(words, one.record.animal, gap.lesion, gap.code),
              what: (row) => whatCell(words, row),
              day: ({ reading }) => dayInWords(words, reading.date),
            },
          }),
        }
      : {}),
  };
}

function kindOf(gap: LesionGrowth, reading: JudgedReading): Told['kind'] | undefined {
  if (notable.has(reading.kind)) return reading.kind as Told['kind'];
  if (gap.heldNow === undefined || reading !== gap.readings.at(-1)) return undefined;
  return gap.heldNow.sure ? 'held' : 'may-be-held';
}

function whatCell(words: Words, { kind, reading, gap }: Told) {
  const { ranUpMm, topMm, expectedMm } = reading;
  const since = gap.heldNow?.since;
  const isHeld = kind === 'held' || kind === 'may-be-held';
  return {
    text: words.say(`standing.chip.${kind}`),
    note: [
      ranUpMm !== undefined && words.say('overview.ran-up.by', { mm: Math.round(ranUpMm) }),
      topMm !== undefined &&
        (expectedMm === undefined
          ? words.say('overview.ran-up.read', { top: mm(topMm) })
          : words.say('overview.ran-up.read-expected', { top: mm(topMm), expected: Math.round(expectedMm) })),
      isHeld && since !== undefined && words.say('overview.ran-up.since', { day: dayInWords(words, since) }),
    ]
      .filter((one) => one !== false)
      .join(' '),
  };
}

/** The day this is told from. @example firstOfLastMonth('2026-01-16') // → '2025-12-01' */
export function firstOfLastMonth(day: CalendarDay): CalendarDay {
  return monthOf(addDays(monthOf(day).from, -1)).from;
}
