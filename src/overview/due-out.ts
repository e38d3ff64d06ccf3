import type { FarmSection } from '../book/book-page.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import { monthOf } from '../record/period.js';
import { outSentence } from '../words/compose-regrowth.js';
import { nameOf } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import { toolsInWords } from '../words/tools-in-words.js';
import type { Words } from '../words/words.js';
import { animalOnFarm, type OfBusiness, type OnFarm, openCases } from './of-business.js';

type Range = Extract<LesionGrowth['forecast'], { outcome: 'range' }>;

interface DatedGap extends OnFarm {
  readonly gap: LesionGrowth;
  readonly out: Range['out'];
}

/**
 * Wall gaps that may be out by the end of the month: those whose range has begun by then, the most likely day first.
 * Each with its range and what it rests on; those without a date are counted.
 */
export function dueOutThisMonth(words: Words, business: OfBusiness): FarmSection {
  const { today } = business;
  const gaps = openCases(business).flatMap((on) => openGaps(on));
  const dated = gaps.flatMap((one): DatedGap[] => {
    const { forecast } = one.gap;
    return forecast.outcome === 'range' ? [{ ...one, out: forecast.out }] : [];
  });
  const end = monthOf(today).to;
  const due = dated
    .filter(({ out }) => out.early !== null && out.early <= end)
    .sort((a, b) => order(a) - order(b));
  const undated = gaps.length - dated.length;
  const likely = due.filter(({ gap, out }) => out.best !== null && out.best <= end && !isIf(gap));
  return {
    id: 'due-out',
    heading: words.say('overview.out.heading'),
    lead: [
      words.say(`overview.out.lead${dated.length === 0 ? '-undated' : due.length === 0 ? '-none' : ''}`, {
        ...(dated.length === 0 ? {} : { day: dayInWords(words, end), dated: dated.length }),
        ...(due.length === 0 ? {} : { due: due.length, likely: likely.length }),
      }),
      ...(undated === 0 ? [] : [words.say('overview.out.undated', { count: undated })]),
      words.say('caution.estimate'),
    ],
    ...(due.length > 0
      ? {
          table: {
            id: 'due-out-table',
            caption: words.say('overview.out.caption', { count: due.length }),
            columns: ['animal', 'gap', 'when', 'basis'].map((key) => ({
              head: words.say(`overview.out.${key}`),
            })),
            rows: due.map((one) => ({ cells: cellsOf(words, one, today) })),
          },
        }
      : {}),
  };
}

function order({ out }: DatedGap): number {
  return out.best === null ? Number.MAX_SAFE_INTEGER : dayNumber(out.best);
}

function openGaps(on: OnFarm): (OnFarm & { gap: LesionGrowth })[] {
  const { growth, standing } = on.one;
  return growth.lesions
    .filter(({ lesion, readings }) => {
      const stands = standing.lesions.find((one) => one.lesion === lesion)?.standing;
      return readings.length > 0 && stands !== 'healed' && stands !== 'joined' && stands !== 'lasting';
    })
    .map((gap) => ({ ...on, gap }));
}

function isIf({ forecast }: LesionGrowth): boolean {
  return forecast.outcome === 'range' && forecast.ifSoundHornFollows;
}

function cellsOf(words: Words, one: DatedGap, today: CalendarDay) {
  const { gap } = one;
  const used = gap.readings.filter(({ unused, topMm }) => !unused && topMm !== undefined);
  return [
    { text: animalOnFarm(one) },
    { text: nameOf(words, one.one.record.animal, gap.lesion, gap.code) },
    { text: outSentence(words, gap, today) },
    {
      text: words.say('overview.out.readings', { count: used.length, tools: toolsInWords(words, used) }),
      note: words.say(`overview.out.wall-${gap.wall.source}`),
    },
  ];
}
