import type { PlacedCase } from '../../book/placed-case.js';
import type { TableSection } from '../../book/page-parts.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { dueInWords } from '../../words/compose-due.js';
import { planDay } from '../../words/plan-day.js';
import type { Words } from '../../words/words.js';
import type { Round, RoundFarm } from '../round-of.js';
import { farmsOf } from './short-table.js';
import { whenDue } from './animal-lines.js';

/** Jobs of the trimmer's that no planned visit is for: by day over all farms, with who to ring. */
export function apartTable(words: Words, round: Round, today: CalendarDay): TableSection | undefined {
  const rows = farmsOf(round)
    .flatMap((farm) => farm.apart.map((job) => ({ farm, ...job })))
    .sort((a, b) => (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : 0));
  if (rows.length === 0) return undefined;
  return {
    id: 'apart',
    heading: words.say('round.apart'),
    lead: [words.say('round.apart-lead')],
    table: {
      id: 'apart-table',
      caption: words.say('round.apart-caption', { count: rows.length }),
      columns: ['day', 'farm-name', 'animal', 'jobs', 'visit'].map((key) => ({
        head: words.say(`round.${key}`),
      })),
      rows: rows.map(({ farm, one, item }) => {
        const { what, why } = dueInWords(words, one.record.animal, { ...item, beforeNextVisit: false });
        return {
          cells: [
            { text: whenDue(words, item, today) },
            { text: farm.work.record.farm.farm, note: phoneOf(farm) },
            { text: one.record.animal.animal, ...handlingOf(farm, one) },
            { text: what, note: why },
            { text: planDay(words, farm.visit!, today) },
          ],
        };
      }),
    },
  };
}

/** How she is to handle, where the visit's table does not say it. */
function handlingOf({ lifts }: RoundFarm, one: PlacedCase): { note?: string } {
  const { handling } = one.record.animal;
  return handling === undefined || lifts.some((lift) => lift.one === one) ? {} : { note: handling };
}

function phoneOf({ work }: RoundFarm): string {
  const { contact } = work.record.farm;
  return contact?.phone ?? contact?.email ?? '';
}
