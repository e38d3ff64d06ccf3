import type { Pooled } from '../herd/pooled-on.js';
import type { Practice } from '../record/practice.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { PlacedCase } from '../book/animal-page-data.js';
import type { FarmWork } from '../round/round-of.js';
import type { FarmSection } from '../book/page-parts.js';
import { standingOrder } from '../healing/standing.js';
import { whenDue, jobInShort } from '../words/compose-due.js';
import { dayInWords } from '../words/day-and-place.js';
import { caseChip } from '../words/compose-standing.js';
import { type Words, told } from '../reference/words.js';

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
  return farms.flatMap((farm) =>
    farm.placed.filter(({ standing }) => !standing.closed).map((one) => ({ farm, one })),
  );
}

/** An animal where several farms are told of: her number and her farm. Such as: 2086, Quernholt. */
export function animalOnFarm({ farm, one }: OnFarm): string {
  return `${one.record.animal.animal}, ${told(farm.record.farm.farm)}`;
}

/** Open cases of each farm, how many are lame; and of all its cases what is overdue and the vet's, as its book has it. */
export function openByFarm(words: Words, business: OfBusiness): FarmSection {
  const open = openCases(business);
  const all = business.farms.reduce((sum, { cases }) => sum + cases.length, 0);
  const section = { id: 'open', heading: words.say('overview.open.heading') };
  if (business.farms.length === 0) return { ...section, lead: [words.say('overview.open.no-farm')] };
  return {
    ...section,
    lead: [howMany(words, open, all), ...longestOverdue(words, business)],
    table: {
      id: 'open-table',
      caption: words.say('overview.open.caption'),
      columns: [
        { head: words.say('overview.farm') },
        ...['cases', 'overdue', 'ours', 'farms', 'vet', 'lame'].map((key) => ({
          head: words.say(`overview.open.${key}`),
          number: true,
        })),
      ],
      rows: business.farms.map((farm) => {
        const hers = open.filter((one) => one.farm === farm);
        const whole = farm.placed.map((one) => ({ farm, one }));
        const count = (test: (one: OnFarm) => boolean) => String(whole.filter(test).length);
        const scored = hers.filter(({ one }) => one.standing.gait.last !== undefined);
        const lame = scored.filter(({ one }) => one.standing.gait.last?.lame);
        return {
          cells: [
            { text: told(farm.record.farm.farm) },
            { text: words.say('overview.of', { part: hers.length, whole: farm.cases.length }) },
            { text: count(isOverdue) },
            ...(['trimmer', 'farm'] as const).map((who) => ({
              text: String(whole.flatMap(overdueJobs).filter((item) => item.who === who).length),
            })),
            { text: count(({ one }) => one.notices.some(({ standing }) => standing)) },
            { text: words.say('overview.of', { part: lame.length, whole: scored.length }) },
          ],
        };
      }),
    },
  };
}

function howMany(words: Words, open: readonly OnFarm[], all: number): string {
  if (all === 0) return words.say('overview.open.no-case');
  if (open.length === 0) return words.say('overview.open.lead-none', { all });
  return words.say('overview.open.lead', { open: open.length, all, overdue: open.filter(isOverdue).length });
}

/** What has waited longest, so that it is not lost among the counts. */
function longestOverdue(words: Words, { farms, today }: OfBusiness): string[] {
  const [first] = farms
    .flatMap((farm) => farm.placed.map((one) => ({ farm, one })))
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

/** Open cases of all farms by how they stand, worst first. */
export function openByStanding(words: Words, business: OfBusiness): FarmSection | undefined {
  const open = openCases(business);
  if (open.length === 0) return undefined;
  const chips = [...new Set(open.toSorted(byStanding).map(({ one }) => caseChip(words, one.standing)))];
  return {
    id: 'standing',
    heading: words.say('overview.standing.heading'),
    lead: [],
    table: {
      id: 'standing-table',
      caption: words.say('overview.standing.caption', { count: open.length }),
      columns: [
        { head: words.say('overview.standing.how') },
        { head: words.say('overview.standing.cases'), number: true },
        { head: words.say('overview.standing.which') },
      ],
      rows: chips.map((chip) => {
        const such = open.filter(({ one }) => caseChip(words, one.standing) === chip);
        return {
          cells: [
            { text: chip },
            { text: words.say('overview.of', { part: such.length, whole: open.length }) },
            { text: whichByFarm(words, such) },
          ],
        };
      }),
    },
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
