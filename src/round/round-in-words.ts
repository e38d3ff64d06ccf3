import { largest } from '../statistics/estimate.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { DueItem } from '../schedule/due/due-item.js';
import { openBesides, type Lift, type Round, type RoundFarm } from './round-of.js';
import type { RoundPage } from './page/round-page.js';
import type { Cell, DataTable } from '../book/page-parts.js';
import { untold } from '../reference/words.js';
import { given } from '../record/given.js';

/** The round for a terminal: the page's own tables, each row on a line or two. */
export function roundAsText(page: RoundPage): string {
  const lines = [
    page.title,
    '',
    ...(page.short.table ? aligned(page.short.table) : page.short.lead),
    ...page.rest,
    ...(page.apart?.table
      ? ['', page.apart.heading, ...page.apart.table.rows.flatMap(({ cells }) => call(cells))]
      : []),
    ...page.trips.flatMap((trip) => [
      '',
      trip.heading,
      ...trip.lead,
      ...trip.farms.flatMap((farm) => [
        '',
        farm.name,
        ...farm.contact,
        ...farm.lead,
        ...farm.tables.flatMap((table) => [
          table.caption,
          ...table.rows.flatMap(({ cells }) => animal(cells)),
        ]),
        [farm.leaving.label, ...farm.leaving.ticks.map((tick) => `[ ] ${tick}`)].join(' '),
      ]),
    ]),
  ];
  return untold(`${lines.map((line) => line.trimEnd()).join('\n')}\n`);
}

/** A table with its columns under each other; notes are left to the page. */
function aligned({ columns, rows }: DataTable): string[] {
  const table = [
    columns.map(({ head }) => head),
    ...rows.map(({ cells }) => cells.map(({ text }) => untold(text))),
  ];
  const widths = columns.map((_, at) => largest(table.map((row) => [...(row[at] ?? '')].length)));
  return table.map((row) =>
    row
      .map((text, at) => (columns[at]!.number ? text.padStart(widths[at]!) : text.padEnd(widths[at]!)))
      .join('  '),
  );
}

/** A farm's jobs of a day: when and where on one line, each job on one of its own. */
function call([when, farm, jobs]: readonly Cell[]): string[] {
  return [
    `  ${[when?.text, farm?.text, ...(farm?.lines ?? [])].join('; ')}`,
    ...(jobs?.items ?? []).map((item) => `    ${item.lead}: ${item.text}`),
  ];
}

/** An animal: her number and her status, then each thing on a line of its own. */
function animal([who, ...rest]: readonly Cell[]): string[] {
  return [
    `  ${who?.text}  ${who?.note ?? ''}`,
    ...rest.flatMap(({ text, lines = [], items = [] }) => [
      ...items.map((item) => `    ${item.lead}: ${item.text}`),
      ...[text, ...lines].filter((line) => line !== '' && line !== '–').map((line) => `    ${line}`),
    ]),
  ];
}

/** The round as JSON: what the page says, unworded. */
export function roundAsData(round: Round, today: CalendarDay): object {
  const farm = (one: RoundFarm) => ({
    farm: one.work.record.slug,
    ...given({ visit: one.visit }),
    ...(one.stop ? { stop: one.stop } : {}),
    ...(one.work.record.farm.health ? { health: one.work.record.farm.health } : {}),
    lift: one.lifts.map((lift) => liftAsData(lift, one, today)),
    apart: one.apart.map(({ one: { record }, item }) => ({ animal: record.slug, ...jobAsData(item, today) })),
    others: one.others.map((other) => ({ animal: other.record.slug, ...besidesAsData(other, one, today) })),
    bring: one.bring,
  });
  return {
    trips: round.trips.map(({ day, farms }) => ({ day, farms: farms.map(farm) })),
    unplanned: round.unplanned.map(farm),
    outside: round.outside.map(farm),
    quiet: round.quiet.map(({ record }) => record.slug),
  };
}

function liftAsData({ one, items }: Lift, farm: RoundFarm, today: CalendarDay) {
  const { handling } = one.record.animal;
  return {
    animal: one.record.slug,
    jobs: items.map((item) => jobAsData(item, today)),
    ...given({ handling }),
    ...besidesAsData(one, farm, today),
  };
}

function besidesAsData(one: Lift['one'], { until }: RoundFarm, today: CalendarDay) {
  const { notices, isWithheld, notReported } = openBesides(one, until);
  return {
    notices: notices.map(({ rule, urgency, raised }) => ({ rule, urgency, raised })),
    withheld: isWithheld,
    notReported: notReported.map((item) => jobAsData(item, today)),
  };
}

function jobAsData({ what, task, who, by, standing }: DueItem, today: CalendarDay) {
  return {
    what,
    ...given({ task }),
    who,
    by,
    ...(standing === 'overdue' ? { overdueDays: daysBetween(by, today) } : {}),
  };
}
