import { tableByColumns } from './table-by-columns.js';
import type { PlacedCase } from '../../book/animal-page-data.js';
import type { Cell, CellItem, DataTable, TableSection } from '../../book/page-parts.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { noticeLimit } from '../../reference/notices.js';
import { stopInWords, dueInWords, whenDue, jobInShort } from '../../words/compose-due.js';
import { calvingInWords } from '../../words/compose-withheld.js';
import { dayInWords, planDay, placeInWords, sentenceCase } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import { type Lift, type RoundFarm, openBesides } from '../round-of.js';
import type { CoveredPage } from '../../book/layout-css.js';
import { vetLine, withheldCells } from '../../book/withheld-list.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { wrapTimeline } from '../../healing/fixture-span.js';
import type { DueItem } from '../../schedule/due/due-item.js';
import { caseChip } from '../../words/compose-standing.js';
import { given } from '../../record/given.js';

/** One farm: who to ring, who is to be lifted and why, and what else is open. Every animal is in one row. */
export function farmBlock(
  words: Words,
  farm: RoundFarm,
  all: readonly RoundFarm[],
  today: CalendarDay,
): FarmBlock {
  const { record } = farm.work;
  const { slug } = record;
  const { lifts, others } = farm;
  const stop = stopInWords(words, farm.work.cases);
  return {
    id: `farm-${slug}`,
    name: told(record.farm.farm),
    contact: contactLines(words, farm),
    lead: [
      ...health(words, farm),
      ...(stop ? [`${stop.title}. ${stop.text}`] : calledOnAfter(words, farm, all)),
      ...passed(words, farm, today),
      ...neighbours(words, farm, all, today),
      ...(lifts.length > 0
        ? []
        : [words.say(stop ? 'round.stop-none-lifted' : `round.lift-none${farm.visit ? '' : '-unplanned'}`)]),
    ],
    tables: [
      ...(lifts.length > 0 ? [liftTable(words, farm, today)] : []),
      ...(others.length > 0 ? [othersTable(words, farm, today)] : []),
    ],
    leaving: {
      label: words.say('round.leaving.label'),
      ticks: ['boots', 'crush', 'knives', 'hands'].map((what) => words.say(`round.leaving.${what}`)),
    },
  };
}

/** Where work has stopped, who was there, and which farms the same people were on in the days before. */
export function stopLines(words: Words, all: readonly RoundFarm[]): string[] {
  const days = noticeLimit('several-animals-ill', 'visited');
  return all.flatMap((farm) => {
    const stop = farm.stop;
    const said = stopInWords(words, farm.work.cases);
    if (!stop || !said) return [];
    const farms = all.filter(
      (other) => other !== farm && wasThere(other, stop.people, addDays(stop.since, -days), stop.since),
    );
    const before = {
      days,
      farms: words.commas(farms.map(({ work }) => told(work.record.farm.farm))),
    };
    return [
      `${told(farm.work.record.farm.farm)}: ${said.title}. ${said.text}`,
      ...(farms.length > 0 ? [words.say('stop.visited', before)] : []),
    ];
  });
}

/** A farm called on since by somebody who was where work has stopped. */
function calledOnAfter(words: Words, farm: RoundFarm, all: readonly RoundFarm[]): string[] {
  return all.flatMap((other) => {
    const stop = other.stop;
    if (!stop || other === farm || !wasThere(farm, stop.people, stop.since, '9')) return [];
    const said = { farm: told(other.work.record.farm.farm), people: words.commas(stop.people.map(told)) };
    return [words.say('stop.later', { ...said, day: dayInWords(words, stop.since) })];
  });
}

/** Anybody of them lifted a foot there from the one day to before the other. */
function wasThere({ work }: RoundFarm, people: readonly string[], from: CalendarDay, to: string): boolean {
  return work.cases.some(({ record }) =>
    record.animal.visits.some(
      (visit) => isLiftingVisit(visit) && visit.date >= from && visit.date < to && people.includes(visit.by),
    ),
  );
}

function contactLines(words: Words, { work }: RoundFarm): string[] {
  const { contact, address, vet } = work.record.farm;
  const who = words.semicolons([contact?.name, contact?.phone, contact?.email].map(told));
  const practice = words.semicolons([vet?.practice, vet?.name, vet?.phone].map(told));
  return [
    who === '' ? words.say('round.contact-none') : words.say('round.contact', { who }),
    ...(address === undefined ? [] : [told(address)]),
    practice === '' ? words.say('jobs.vet.no-practice') : words.say('jobs.vet.practice', { who: practice }),
  ];
}

/** What is carried from such a farm to the next; it is gone to last. */
function health(words: Words, { work }: RoundFarm): string[] {
  const { health: written = [] } = work.record.farm;
  return written.length === 0 ? [] : [words.say('round.health', { health: words.commas(written.map(told)) })];
}

/** A planned visit whose day is over says nothing of the next. */
function passed(words: Words, { visit, work }: RoundFarm, today: CalendarDay): string[] {
  const written = work.record.farm['next-visit'];
  if (visit !== undefined || written === undefined || written >= today) return [];
  return [words.say('round.visit-passed', { day: dayInWords(words, written) })];
}

/** Farms of the same place, with another day or none: perhaps one trip. One sentence, since fifteen farms may have four each. */
function neighbours(words: Words, farm: RoundFarm, all: readonly RoundFarm[], today: CalendarDay): string[] {
  const place = placeName(farm);
  const farms = all
    .filter((other) => other !== farm && place !== '' && placeName(other) === place)
    .filter(({ visit }) => visit === undefined || visit !== farm.visit)
    .map(({ visit, work }) =>
      words.say(`round.near-farm${visit === undefined ? '-unplanned' : ''}`, {
        farm: told(work.record.farm.farm),
        ...(visit === undefined ? {} : { day: planDay(words, visit, today) }),
      }),
    );
  return farms.length === 0 ? [] : [words.say('round.near', { farms: words.semicolons(farms) })];
}

/** What is last in an address; a postcode or a county there only means that fewer neighbours are found. */
function placeName({ work }: RoundFarm): string {
  return (work.record.farm.address ?? '').split(/[,\n]/).at(-1)!.trim().toLowerCase();
}

function liftTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  return tableByColumns<Lift>(words, farm.lifts, {
    id: `lift-${farm.work.record.slug}`,
    caption: words.say('round.lift-caption', { count: farm.lifts.length }),
    area: 'round',
    cells: {
      animal: ({ one }) => whoCell(words, one),
      jobs: ({ one, items }) => linesCell(items.map((item) => jobLine(words, one, item, farm.visit, today))),
      besides: ({ one }) => linesCell(besidesLines(words, one, farm.until, today)),
      handling: ({ one }) => handlingCell(words, one, today),
    },
  });
}

function othersTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  return tableByColumns(words, farm.others, {
    id: `others-${farm.work.record.slug}`,
    caption: words.say('round.others-caption', { count: farm.others.length }),
    area: 'round',
    cells: {
      animal: (one) => whoCell(words, one),
      besides: (one) => linesCell(besidesLines(words, one, farm.until, today)),
    },
  });
}

/** Who she is: her number, her case in the farm's book, and her status. */
function whoCell(words: Words, { record, place, standing }: PlacedCase): Cell {
  const note = words.say('round.who', { place, standing: caseChip(words, standing) });
  return { text: record.animal.animal, note };
}

function linesCell(lines: readonly CellItem[]): Cell {
  return lines.length === 0 ? { text: '–', nothing: true } : { text: '', items: lines };
}

/** How she is to handle, as it was written, whether she is close to calving, and what is on her. */
function handlingCell(words: Words, one: PlacedCase, today: CalendarDay): Cell {
  const { calvingNear, record } = one;
  const { handling } = record.animal;
  const [first = '–', ...lines] = [
    ...(calvingNear ? [calvingInWords(words, calvingNear)] : []),
    ...(handling ? [told(handling)] : []),
    ...onHerLines(words, one, today),
  ];
  return {
    text: first,
    ...(first === '–' ? { nothing: true } : {}),
    ...(calvingNear || handling ? { strong: true } : {}),
    ...(lines.length > 0 ? { lines } : {}),
  };
}

/** The round as finished page data: every string worded, nothing left to work out. */
export interface RoundPage extends CoveredPage {
  /** Where work has stopped: first of all. */
  readonly stops: readonly string[];
  /** One line a farm. */
  readonly short: TableSection;
  /** What no planned visit is for. */
  readonly apart?: TableSection;
  readonly trips: readonly RoundTrip[];
  readonly rest: readonly string[];
  readonly notes: { readonly heading: string; readonly items: readonly string[] };
}

/** The farms of one day, or those with no visit planned. */
export interface RoundTrip {
  readonly id: string;
  readonly heading: string;
  readonly lead: readonly string[];
  readonly farms: readonly FarmBlock[];
}

interface FarmBlock {
  readonly id: string;
  readonly name: string;
  /** Who to ring and where it is. */
  readonly contact: readonly string[];
  readonly lead: readonly string[];
  readonly tables: readonly DataTable[];
  /** What is cleaned and disinfected before the next farm, each with a box to tick. */
  readonly leaving: { readonly label: string; readonly ticks: readonly string[] };
}

/** A job of the trimmer's: when it was or is due, what, and why. */
export function jobLine(
  words: Words,
  one: PlacedCase,
  item: DueItem,
  visit: CalendarDay | undefined,
  today: CalendarDay,
): CellItem {
  const { what, why } = dueInWords(words, one.record.animal, { ...item, beforeNextVisit: false });
  const lead = item.by === visit ? words.say('round.due-then') : whenInRound(words, item, today);
  return { lead, text: what, note: why, ...(item.standing === 'overdue' ? { loud: true } : {}) };
}

/** When it is due, with the day of the week. */
export function whenInRound(words: Words, item: DueItem, today: CalendarDay): string {
  return sentenceCase(whenDue(words, item, today, planDay(words, item.by, today)));
}

/** What is open besides: the vet's, what is withheld, what was not reported done. */
function besidesLines(words: Words, one: PlacedCase, until: CalendarDay, today: CalendarDay): CellItem[] {
  const vet = vetLine(words, one, today);
  const held = withheldCells(words, one, today);
  const sides = (['milk', 'meat'] as const).flatMap((side): CellItem[] => {
    const cell = held[side];
    if (cell.strong !== true) return [];
    const lead = words.say(`jobs.withheld.${side}`);
    return [{ lead, text: cell.text, ...given({ note: cell.note }) }];
  });
  return [
    ...(vet
      ? [
          {
            lead: words.say('round.vet'),
            text: vet.why,
            note: words.say('round.vet-note', { when: sentenceCase(vet.when), asked: vet.asked }),
            ...(vet.urgency === 'notice' ? {} : { loud: true }),
          },
        ]
      : []),
    ...sides,
    ...openBesides(one, until).notReported.map((item) => {
      const { job, marks } = jobInShort(words, one.record.animal, item);
      return {
        lead: words.say(`round.${item.who}`),
        text: words.semicolons([job, ...marks]),
        note: whenInRound(words, item, today),
      };
    }),
  ];
}

/** What is on her according to the record, and of what material. */
function onHerLines(words: Words, { record }: PlacedCase, today: CalendarDay): string[] {
  const { animal } = record;
  return [
    ...blockTimeline(animal, today).on.map(({ foot, claw, material, from }) =>
      words.say('round.block-on', {
        material: words.say(material ? `vocabulary.material.${material}` : 'round.material-not-written'),
        place: placeInWords(words, foot, claw),
        day: planDay(words, from, today),
      }),
    ),
    ...wrapTimeline(animal, today)
      .filter(({ end }) => !end)
      .map(({ foot, from }) =>
        words.say('round.wrap-on', {
          place: placeInWords(words, foot),
          day: planDay(words, from, today),
        }),
      ),
  ];
}
