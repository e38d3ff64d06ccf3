import type { CellItem, TableSection } from '../../book/page-parts.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { paragraph } from '../../words/number-in-words.js';
import { planDay } from '../../words/plan-day.js';
import type { Words } from '../../words/words.js';
import type { Round, RoundFarm } from '../round-of.js';
import { jobLine, whenInRound } from './animal-lines.js';
import { farmsOf } from './short-table.js';

type Job = RoundFarm['apart'][number];

/** One farm's jobs of one day. */
interface Call {
  readonly farm: RoundFarm;
  readonly jobs: readonly [Job, ...Job[]];
}

/** Jobs of the trimmer's that no planned visit is for: by day over all farms, each farm with whom to ring. */
export function apartTable(words: Words, round: Round, today: CalendarDay): TableSection | undefined {
  const calls = farmsOf(round)
    .flatMap(callsOf)
    .sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0));
  if (calls.length === 0) return undefined;
  return {
    id: 'apart',
    heading: words.say('round.apart'),
    lead: [words.say('round.apart-lead')],
    table: {
      id: 'apart-table',
      caption: words.say('round.apart-caption'),
      columns: ['day', 'farm-name', 'jobs'].map((key) => ({ head: words.say(`round.${key}`) })),
      rows: calls.map(({ farm, jobs }) => ({
        cells: [
          { text: whenInRound(words, jobs[0].item, today) },
          {
            text: farm.work.record.farm.farm,
            lines: [
              ...phoneOf(farm),
              words.say('round.apart-visit', { day: planDay(words, farm.visit!, today) }),
            ],
          },
          { text: '', items: jobs.map((job) => lineOf(words, farm, job, today)) },
        ],
      })),
    },
  };
}

function callsOf(farm: RoundFarm): Call[] {
  const days = new Map<CalendarDay, readonly [Job, ...Job[]]>();
  for (const job of farm.apart)
    days.set(job.item.by, [...(days.get(job.item.by) ?? []), job] as [Job, ...Job[]]);
  return [...days.values()].map((jobs) => ({ farm, jobs }));
}

function dayOf({ jobs: [{ item }] }: Call): CalendarDay {
  return item.by;
}

/** How she is to handle stands here where the visit's table does not say it. */
function lineOf(words: Words, farm: RoundFarm, { one, item }: Job, today: CalendarDay): CellItem {
  const { text, note } = jobLine(words, one, item, undefined, today);
  const { animal, handling } = one.record.animal;
  const isLifted = farm.lifts.some((lift) => lift.one === one);
  return {
    lead: animal,
    text,
    note: paragraph(note, handling && !isLifted ? words.say('round.handling-said', { handling }) : undefined),
  };
}

function phoneOf({ work }: RoundFarm): string[] {
  const { contact } = work.record.farm;
  const said = contact?.phone ?? contact?.email;
  return said === undefined ? [] : [said];
}
