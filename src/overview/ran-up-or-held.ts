import type { FarmSection } from '../book/page-parts.js';
import type { JudgedReading, LesionGrowth, ReadingKind } from '../growth/animal-growth.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { monthOf } from '../record/period.js';
import { nameOf } from '../words/compose-standing.js';
import { dayInWords, mm } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import { animalOnFarm, type OfBusiness, type OnFarm } from './open-cases.js';

const told: ReadonlySet<ReadingKind> = new Set(['ran-up', 'at-coronet', 'held']);

interface Told extends OnFarm {
  readonly gap: LesionGrowth;
  readonly reading: JudgedReading;
  readonly kind: 'ran-up' | 'at-coronet' | 'held' | 'may-be-held';
}

/**
 * Gaps that ran up, reached the coronet or were held, at a reading since the first day of last month; out of how many
 * readings that could be compared with growth. A gap found held over several readings is told at the last of them.
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
          table: {
            id: 'ran-up-table',
            caption: words.say('overview.ran-up.caption', { count: rows.length }),
            columns: ['animal', 'gap', 'what', 'day'].map((key) => ({
              head: words.say(`overview.ran-up.${key}`),
            })),
            rows: rows.map((row) => ({
              cells: [
                { text: animalOnFarm(row) },
                { text: nameOf(words, row.one.record.animal, row.gap.lesion, row.gap.code) },
                whatCell(words, row),
                { text: dayInWords(words, row.reading.date) },
              ],
            })),
          },
        }
      : {}),
  };
}

function kindOf(gap: LesionGrowth, reading: JudgedReading): Told['kind'] | undefined {
  if (told.has(reading.kind)) return reading.kind as Told['kind'];
  if (gap.heldNow === undefined || reading !== gap.readings.at(-1)) return undefined;
  return gap.heldNow.sure ? 'held' : 'may-be-held';
}

function whatCell(words: Words, { kind, reading, gap }: Told) {
  const { ranUpMm, topMm, expectedMm } = reading;
  const since = gap.heldNow?.since;
  return {
    text: words.say(`standing.chip.${kind}`),
    note: [
      ...(ranUpMm === undefined ? [] : [words.say('overview.ran-up.by', { mm: Math.round(ranUpMm) })]),
      ...(topMm === undefined
        ? []
        : [
            expectedMm === undefined
              ? words.say('overview.ran-up.read', { top: mm(topMm) })
              : words.say('overview.ran-up.read-expected', {
                  top: mm(topMm),
                  expected: Math.round(expectedMm),
                }),
          ]),
      ...(kind === 'held' || kind === 'may-be-held'
        ? since === undefined
          ? []
          : [words.say('overview.ran-up.since', { day: dayInWords(words, since) })]
        : []),
    ].join(' '),
  };
}

/** The day this is told from. @example firstOfLastMonth('2026-01-16') // → '2025-12-01' */
export function firstOfLastMonth(day: CalendarDay): CalendarDay {
  return monthOf(addDays(monthOf(day).from, -1)).from;
}
