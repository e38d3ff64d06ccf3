import type { PlacedCase } from '../../book/animal-page-data.js';
import type { Cell, CellItem, DataTable } from '../../book/page-parts.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { noticeLimit } from '../../reference/notices.js';
import { stopInWords } from '../../words/compose-due.js';
import { calvingInWords } from '../../words/compose-withheld.js';
import { dayInWords, planDay } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import type { Lift, RoundFarm } from '../round-of.js';
import { besidesLines, jobLine, onHerLines, whoLine, type FarmBlock } from './round-page.js';

/** One farm: who to ring, who is to be lifted and why, and what else stands open. Every animal stands in one row. */
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

/** What stands last in an address; a postcode or a county there only means that fewer neighbours are found. */
function placeName({ work }: RoundFarm): string {
  return (work.record.farm.address ?? '').split(/[,\n]/).at(-1)!.trim().toLowerCase();
}

function liftTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  const row = ({ one, items }: Lift): Cell[] => [
    whoCell(words, one),
    linesCell(items.map((item) => jobLine(words, one, item, farm.visit, today))),
    linesCell(besidesLines(words, one, farm.until, today)),
    handlingCell(words, one, today),
  ];
  return {
    id: `lift-${farm.work.record.slug}`,
    caption: words.say('round.lift-caption', { count: farm.lifts.length }),
    columns: ['animal', 'jobs', 'besides', 'handling'].map((key) => ({ head: words.say(`round.${key}`) })),
    rows: farm.lifts.map((lift) => ({ cells: row(lift) })),
  };
}

function othersTable(words: Words, farm: RoundFarm, today: CalendarDay): DataTable {
  return {
    id: `others-${farm.work.record.slug}`,
    caption: words.say('round.others-caption', { count: farm.others.length }),
    columns: ['animal', 'besides'].map((key) => ({ head: words.say(`round.${key}`) })),
    rows: farm.others.map((one) => ({
      cells: [whoCell(words, one), linesCell(besidesLines(words, one, farm.until, today))],
    })),
  };
}

function whoCell(words: Words, one: PlacedCase): Cell {
  const { number, standing } = whoLine(words, one);
  return { text: number, note: standing };
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
