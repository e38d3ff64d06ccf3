import ICAL from 'ical.js';
import { composeBook } from '../../src/book/compose-book.js';
import { roundAsData } from '../../src/round/round-in-words.js';
import { dueNow } from '../../src/form/known-of-animal.js';
import { composeSheet } from '../../src/form/sheet/compose-sheet.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeHandover } from '../../src/handover/compose-handover.js';
import { composeSummary } from '../../src/post/compose-summary.js';
import type { Practice } from '../../src/record/practice.js';
import { calendarOf } from '../../src/round/calendar/calendar-of.js';
import { composeRound } from '../../src/round/page/compose-round.js';
import { type RoundDays, roundOf } from '../../src/round/round-of.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { type Words, wordsOf } from '../../src/reference/words.js';

/** What is due in the round as JSON. */
export interface JobOut {
  readonly what: string;
  readonly task?: string;
  readonly who: string;
  readonly by: string;
  readonly overdueDays?: number;
}

export interface AnimalOut {
  readonly animal: string;
  readonly withheld: boolean;
  readonly notices: readonly { readonly rule: string; readonly urgency: string; readonly raised: string }[];
  readonly notReported: readonly JobOut[];
}

export interface FarmOut {
  readonly visit?: string;
  readonly stop?: { readonly rule: string; readonly suspended: number };
  readonly lift: readonly (AnimalOut & { readonly jobs: readonly JobOut[] })[];
  readonly apart: readonly ({ readonly animal: string } & JobOut)[];
  readonly others: readonly AnimalOut[];
}

export interface EventOut {
  readonly summary: string;
  readonly day: string;
  readonly description: string;
}

/** Everything that the first farm of a business is told on a day, made as the commands make it. */
export function outputsOf(practice: Practice, today: string, days: RoundDays = {}) {
  const { business } = practice;
  const farm = practice.farms[0]!;
  const language = farm.farm.language ?? business.language ?? 'en-GB';
  const words: Words = wordsOf(language);
  const pooled = pooledOn(practice, today);
  const work = workOutFarm(farm, { business, today, priors: pooled.priors });
  const data = { record: farm, business, cases: work };
  const round = roundOf([data], days, today);
  const { ics } = calendarOf(data, undefined, today);
  const book = composeBook(practice, farm, today, { pooled });
  const told = roundAsData(round, today) as { trips: { day: string; farms: FarmOut[] }[]; unplanned: FarmOut[]; outside: FarmOut[]; quiet: string[] }; // prettier-ignore
  return {
    practice,
    pooled,
    farm,
    language,
    words,
    today,
    work,
    data,
    book,
    round: told,
    /** The farm as the round as JSON has it; undefined where it is quiet. */
    inRound: [...told.trips.flatMap(({ farms }) => farms), ...told.unplanned, ...told.outside][0],
    roundPage: composeRound(round, { business, days, today, refused: [] }),
    ics,
    events: eventsOf(ics),
    summary: composeSummary(practice, farm, today, pooled),
    sheet: composeSheet({ farm, language, work, day: today, today }),
    animals: work.map((one) => ({
      work: one,
      slug: one.record.slug,
      page: book.cows.find(({ number }) => number === one.record.animal.animal)!,
      handover: composeHandover({ business, farm, work: one, today, pictures: new Map() }),
      form: dueNow(words, one, today).lines,
    })),
  };
}

export type Outputs = ReturnType<typeof outputsOf>;

function eventsOf(ics: string): EventOut[] {
  return new ICAL.Component(ICAL.parse(ics) as unknown as string)
    .getAllSubcomponents('vevent')
    .map((event) => ({
      summary: String(event.getFirstPropertyValue('summary')),
      day: String(event.getFirstPropertyValue('dtstart')),
      description: String(event.getFirstPropertyValue('description') ?? ''),
    }));
}

/** Every string of a page, joined: what a reader can read. */
export function textOf(page: unknown): string {
  if (typeof page === 'string') return page;
  return typeof page === 'object' && page !== null ? Object.values(page).map(textOf).join(' | ') : '';
}

export const cellsOf = (table: { readonly rows: readonly { readonly cells: readonly { readonly text: string }[] }[] } | undefined): string[][] =>
  table?.rows.map(({ cells }) => cells.map(({ text }) => text)) ?? []; // prettier-ignore
