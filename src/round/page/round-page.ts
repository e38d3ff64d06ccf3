import type { DataTable, TableSection, CellItem } from '../../book/page-parts.js';
import type { CoveredPage } from '../../book/layout-css.js';
import type { PlacedCase } from '../../book/animal-page-data.js';
import { vetLine, withheldCells } from '../../book/withheld-list.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { wrapTimeline } from '../../healing/fixture-span.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { DueItem } from '../../schedule/due/due-item.js';
import { dueInWords, whenDue, jobInShort } from '../../words/compose-due.js';
import { caseChip } from '../../words/compose-standing.js';
import { placeInWords, sentenceCase, planDay } from '../../words/day-and-place.js';
import type { Words } from '../../reference/words.js';
import { openBesides } from '../round-of.js';
import { given } from '../../record/given.js';

/** The round as finished page data: every string worded, nothing left to work out. */
export interface RoundPage extends CoveredPage {
  /** Where work has stopped: before all else. */
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

export interface FarmBlock {
  readonly id: string;
  readonly name: string;
  /** Who to ring and where it is. */
  readonly contact: readonly string[];
  readonly lead: readonly string[];
  readonly tables: readonly DataTable[];
  /** What is cleaned and disinfected before the next farm, each with a box to tick. */
  readonly leaving: { readonly label: string; readonly ticks: readonly string[] };
}

/** Who she is: her number, her case in the farm's book, and how she stands. */
export function whoLine(
  words: Words,
  one: PlacedCase,
): { readonly number: string; readonly standing: string } {
  return {
    number: one.record.animal.animal,
    standing: words.say('round.who', { place: one.place, standing: caseChip(words, one.standing) }),
  };
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

/** What stands open besides: the vet's, what is withheld, what was not reported done. */
export function besidesLines(
  words: Words,
  one: PlacedCase,
  until: CalendarDay,
  today: CalendarDay,
): CellItem[] {
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

/** What is on her by what is written, and of what. */
export function onHerLines(words: Words, { record }: PlacedCase, today: CalendarDay): string[] {
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
